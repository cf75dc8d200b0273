// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::kits_file_test {
namespace {

Book book_with(const std::string& kits) { return WrittenBook().file("kits.csv", kits).read(); }

TEST(KitsFile, FillsEveryFieldInTheOrderOfTheFile) {
  const Book book = book_with(
      "Kind of kit;item;kind of instrument;number;note\ndust;pump;pump;3;charged the evening before\ndust;hose;;;\n");
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.kit_items.size(), 2U);
  const KitItem& it = book.kit_items[0];
  EXPECT_EQ(it.kind, "dust");
  EXPECT_EQ(it.item, "pump");
  EXPECT_EQ(it.instrument, InstrumentKind::pump);
  EXPECT_EQ(it.number, 3U);
  EXPECT_EQ(it.note, "charged the evening before");
  EXPECT_EQ(book.kit_items[1].instrument, std::nullopt);
  EXPECT_EQ(book.kit_items[1].number, 1U);
  EXPECT_EQ(book.place_text(book.files.kits, book.kit_items[1].place), "kits.csv:3");
}

TEST(KitsFile, MayBeMissing) { EXPECT_TRUE(WrittenBook().read().kit_items.empty()); }

TEST(KitsFile, TellsEveryFaultAndTakesNoFaultyRow) {
  const Book book = book_with(
      "kind of "
      "kit,item,kind of "
      "instrument,number\n,pump,,\ndust,pump,hose,\ndust,pump,pump,2.5\ndust,pump,pump,0\ndust,hose,,1\n");
  EXPECT_EQ(told(book.problems),
            "kits.csv:2:1: error: the cell under 'kind of kit' is empty; every row needs one [cell/empty]\n"
            "kits.csv:3:11: error: 'hose' is no word for 'kind of instrument'; write pump, calibrator, thermometer, "
            "barometer or balance [cell/unknown-word]\n"
            "kits.csv:4:16: error: '2.5' is not a whole number; write how many of it belong to the kit [kits/number]\n"
            "kits.csv:5:16: error: the number '0' can't be; between 1 and 1000 is plausible; is the unit in the "
            "heading right? "
            "[cell/implausible]\n");
  ASSERT_EQ(book.kit_items.size(), 1U);
  EXPECT_EQ(book.kit_items[0].place.line, 6U);
}

TEST(KitsFile, TakesAnItemOnceAndTellsWhereItStandsTwice) {
  const Book book =
      WrittenBook().file("kits.csv", "kind of kit,item,number\ndust,hose,2\nnoise,hose,1\ndust,hose,3\n").read();
  EXPECT_EQ(told(book.problems),
            "kits.csv:4:6: error: 'hose' belongs to a kit of the kind 'dust' already by kits.csv:2; that row counts; "
            "leave one of the two out, and write under 'number' how many belong to the kit [kits/twice]\n");
  ASSERT_EQ(book.kit_items.size(), 2U);
  EXPECT_EQ(book.kit_items[0].number, 2U);
}

}  // namespace
}  // namespace driftwarden::kits_file_test
