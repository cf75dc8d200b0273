// SPDX-License-Identifier: MIT
#include "diagnostic/place.hpp"

#include <gtest/gtest.h>

namespace driftwarden::place_test {
namespace {

TEST(Place, IsWrittenAsFileLineAndColumn) { EXPECT_EQ(to_text(Place{"readings.csv", 17, 4}), "readings.csv:17:4"); }

TEST(Place, LeavesOutAColumnOfZero) { EXPECT_EQ(to_text(Place{"readings.csv", 17, 0}), "readings.csv:17"); }

TEST(Place, IsTheWholeFileAtLineZero) { EXPECT_EQ(to_text(Place{"readings.csv", 0, 4}), "readings.csv"); }

TEST(Place, OfASheetIsWrittenAsPeopleFindIt) {
  EXPECT_EQ(to_text(Place{"readings/W46.xlsx:week 46", 12, 3}), "readings/W46.xlsx:week 46!C12");
  EXPECT_EQ(to_text(Place{"readings/W46.ods:week 46", 12, 0}), "readings/W46.ods:week 46!12");
  EXPECT_EQ(to_text(Place{"W46.xlsx", 0, 0}), "W46.xlsx");
  EXPECT_EQ(place_in_workbook(Place{"readings/W46.xlsx:week 46", 12, 28}), "week 46!AB12");
  EXPECT_EQ(place_in_workbook(Place{"readings.csv", 12, 28}), "");
}

TEST(Place, TellsTheSheetFromItsFile) {
  const auto both = [](const char* name) {
    const auto [file, sheet] = split_sheet(name);
    return std::string(file) + "|" + std::string(sheet);
  };
  EXPECT_EQ(both("a/W46.XLSX:week: 46"), "a/W46.XLSX|week: 46");
  EXPECT_EQ(both("a:b.ods:c"), "a:b.ods|c");
  EXPECT_EQ(both("a:b.csv"), "a:b.csv|");
  EXPECT_EQ(both(".xlsx:a"), ".xlsx:a|");
}

TEST(Place, CountsColumnsInLetters) {
  EXPECT_EQ(column_letters(0), "A");
  EXPECT_EQ(column_letters(25), "Z");
  EXPECT_EQ(column_letters(26), "AA");
  EXPECT_EQ(column_letters(16383), "XFD");  // the last of a sheet: 16384 columns
}

TEST(Place, SortsByFileThenLineThenColumn) {
  EXPECT_LT((Place{"a.csv", 9, 9}), (Place{"b.csv", 1, 1}));
  EXPECT_LT((Place{"a.csv", 2, 9}), (Place{"a.csv", 10, 1}));
  EXPECT_LT((Place{"a.csv", 2, 1}), (Place{"a.csv", 2, 2}));
}

}  // namespace
}  // namespace driftwarden::place_test
