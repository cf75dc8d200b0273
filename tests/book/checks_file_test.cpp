// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::checks_file_test {
namespace {

Book book_with(const std::string& checks) { return WrittenBook().file("checks.csv", checks).read(); }

TEST(ChecksFile, FillsEveryFieldInInsideUnits) {
  const Book book = book_with(
      "checked,instrument,against,shown [mL/min],reference [mL/min],by,note\n"
      "2026-05-02T09:00,VOL-1,PUMP-1,2010,2000,the workshop,daily\n");
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.checks.size(), 1U);
  const BenchCheck& it = book.checks[0];
  EXPECT_EQ(it.checked, 1777712400);  // derived: seconds since 1970 of 2026-05-02T09:00 UTC
  EXPECT_EQ(it.instrument, 1U);
  EXPECT_EQ(it.against, 0U);
  EXPECT_DOUBLE_EQ(it.shown, 2.01);
  EXPECT_DOUBLE_EQ(it.reference, 2);
  EXPECT_EQ(it.by, "the workshop");
  EXPECT_EQ(it.note, "daily");
  EXPECT_EQ(book.place_text(book.files.checks, it.place), "checks.csv:2");
}

TEST(ChecksFile, MayBeMissing) { EXPECT_TRUE(WrittenBook().read().checks.empty()); }

TEST(ChecksFile, TellsEveryFaultAndTakesNoFaultyRow) {
  const Book book = book_with(
      "checked,instrument,against,shown [L/min],reference [L/min]\n"
      "2026-05-02T09:00,VOL-l,PUMP-1,2,2\n2026-05-02T09:00,VOL-1,PUMP-1,2,0\n2026-05-02T09:00,VOL-1,PUMP-1,,2\n"
      "2026-05-02T09:00,VOL-1,PUMP-1,2,2\n");
  EXPECT_EQ(told(book.problems),
            "checks.csv:2:18: error: the instrument 'VOL-l' is not in instruments.csv; did you mean 'VOL-1'? "
            "[check/unknown-instrument]\n"
            "checks.csv:3:33: error: a reference of 0 holds nothing; write what it was [check/zero]\n"
            "checks.csv:4:31: error: the cell under 'shown' is empty; every row needs one [cell/empty]\n");
  ASSERT_EQ(book.checks.size(), 1U);
  EXPECT_EQ(book.checks[0].place.line, 5U);
}

TEST(ChecksFile, HoldsAnInstrumentToWhatItMeasures) {
  const Book book =
      book_with("checked,instrument,against,shown [°C],reference [°C]\n2026-05-02T09:00,VOL-1,PUMP-1,20.1,20\n");
  EXPECT_NE(told(book.problems)
                .find("checks.csv:2:31: error: 'VOL-1' is a calibrator, which shows a flow and no "
                      "temperature"),
            std::string::npos)
      << told(book.problems);
  EXPECT_TRUE(book.checks.empty());
}

}  // namespace
}  // namespace driftwarden::checks_file_test
