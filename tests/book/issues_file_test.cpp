// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::issues_file_test {
namespace {

Book book_with(const std::string& issues) { return WrittenBook().file("issues.csv", issues).read(); }

// The day may come later; that it is damaged is known now.
TEST(IssuesFile, AsksForTheDayOnWhichSomethingCameBackSoOrSo) {
  const Book book =
      book_with("kit,instrument,out,condition,missing\nK-1,PUMP-1,2026-05-01,damaged,\nK-1,VOL-1,2026-05-01,,yes\n");
  EXPECT_EQ(
      told(book.problems),
      "issues.csv:2:23: remark: it came back damaged, but the day is not written down; it counts as not yet back; "
      "write that day under 'back' [issues/no-day-back]\n");
  EXPECT_EQ(book.issues.size(), 2U);
}

TEST(IssuesFile, FillsEveryFieldInTheOrderOfTheFile) {
  const Book book = book_with(
      "kit,kind of kit,instrument,item,out,to,checked by,due back,charged,back,checked back by,condition,missing,note\n"
      "K-1,dust,PUMP-1,,2026-05-01,north crew,the store,2026-05-04,yes,2026-05-05,the workshop,damaged,no,door "
      "cracked\n"
      "K-1,dust,,hose,2026-05-01,,,,,,,,yes,\n"
      "K-2,,VOL-1,calibrator,,,,,,,,,,\n");
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.issues.size(), 3U);
  const Issue& it = book.issues[0];
  EXPECT_EQ(it.kit, "K-1");
  EXPECT_EQ(it.kind_of_kit(), "dust");
  EXPECT_EQ(it.instrument, 0U);
  EXPECT_EQ(it.out, day_from({2026, 5, 1}));
  EXPECT_EQ(it.to, "north crew");
  EXPECT_EQ(it.checked_by, "the store");
  EXPECT_EQ(it.due_back, day_from({2026, 5, 4}));
  EXPECT_EQ(it.charged, YesNo::yes);
  EXPECT_EQ(it.back, day_from({2026, 5, 5}));
  EXPECT_EQ(it.checked_back_by, "the workshop");
  EXPECT_EQ(it.came_back, CameBack::damaged);
  EXPECT_EQ(it.missing, YesNo::no);
  EXPECT_EQ(it.note, "door cracked");
  EXPECT_EQ(book.issues[1].instrument, no_row);
  EXPECT_EQ(book.issues[1].item, "hose");
  EXPECT_EQ(book.issues[1].missing, YesNo::yes);
  EXPECT_EQ(book.issues[2].kind_of_kit(), "K-2");
  EXPECT_EQ(book.issues[2].out, no_day);
  EXPECT_EQ(book.place_text(book.files.issues, book.issues[2].place), "issues.csv:4");
}

TEST(IssuesFile, MayBeMissing) { EXPECT_TRUE(WrittenBook().read().issues.empty()); }

TEST(IssuesFile, TellsEveryFaultAndTakesNoFaultyRow) {
  const Book book = book_with(
      "kit,instrument,item,out,due back,back,condition\n"
      "K-1,PUMP-l,,2026-05-01,,,\n"
      "K-1,,,2026-05-01,,,\n"
      "K-1,PUMP-1,,2026-05-04,2026-05-01,,\n"
      "K-1,PUMP-1,,2026-05-04,,2026-05-01,\n"
      "K-1,PUMP-1,,,,2026-05-01,\n"
      "K-1,PUMP-1,,2026-05-04,,2026-05-05,broken\n"
      "K-1,PUMP-1,,2026-05-04,2026-05-04,2026-05-04,good\n");
  EXPECT_EQ(
      told(book.problems),
      "issues.csv:2:5: error: the instrument 'PUMP-l' is not in instruments.csv; did you mean 'PUMP-1'? "
      "[issues/unknown-instrument]\n"
      "issues.csv:3:5: error: the row names neither an instrument nor an item; name an instrument of "
      "instruments.csv, or write under 'item' what belongs to the kit [issues/nothing]\n"
      "issues.csv:4:24: error: it is due back on 2026-05-01, before it went out on 2026-05-04; correct the day "
      "that is wrong [issues/order]\n"
      "issues.csv:5:25: error: it came back on 2026-05-01, before it went out on 2026-05-04; correct the day that "
      "is wrong [issues/order]\n"
      "issues.csv:6:13: error: it came back on 2026-05-01, but the day it went out is not written down; write "
      "that day under 'out' [issues/order]\n"
      "issues.csv:7:36: error: 'broken' is no word for 'condition'; write good, dirty or damaged "
      "[cell/unknown-word]\n");
  ASSERT_EQ(book.issues.size(), 1U);
  EXPECT_EQ(book.issues[0].place.line, 8U);
}

TEST(IssuesFile, AsksWhatBelongsToAKindOnlyWhereKindsAreListed) {
  WrittenBook written;
  written.file("issues.csv", "kit,kind of kit,item\ndust,,hose\nK-1,,hose\nK-2,nois,hose\n");
  EXPECT_EQ(written.faults(), "");
  written.file("kits.csv", "kind of kit,item\ndust,hose\nnoise,hose\n");
  const Book book = written.read();
  EXPECT_EQ(
      told(book.problems),
      "issues.csv:3:1: remark: no row of kits.csv says what belongs to a kit of the kind 'K-1'; write its kind "
      "under 'kind of kit', as kits.csv calls it [issues/unknown-kind]\n"
      "issues.csv:4:5: remark: no row of kits.csv says what belongs to a kit of the kind 'nois'; write the kind as "
      "kits.csv calls it, or add to kits.csv what belongs to it [issues/unknown-kind]\n");
  EXPECT_EQ(book.issues.size(), 3U);
}

TEST(IssuesFile, DoesNotTellOfUnknownInstrumentsWhereTheirFileIsLost) {
  const Book book = WrittenBook()
                        .file("issues.csv", "kit,instrument\nK-1,PUMP-1\n")
                        .file("instruments.csv", "instrument,kin\n")
                        .read();
  EXPECT_EQ(told(book.problems).find("issues.csv"), std::string::npos) << told(book.problems);
}

TEST(IssuesFile, RemarksOnAnItemThatDoesNotBelongToTheKindOfKit) {
  const auto told_of = [](const std::string& row) {
    const Book book = WrittenBook()
                          .file("kits.csv", "kind of kit,item,kind of instrument\ndust,pump,pump\ndust,hose,\n")
                          .file("issues.csv", "kit,kind of kit,instrument,item,missing\n" + row)
                          .read();
    EXPECT_EQ(book.issues.size(), 1U) << "the row counts";
    return told(book.problems);
  };
  EXPECT_EQ(told_of("K-1,dust,,hoze,yes\n"),
            "issues.csv:2:11: remark: by kits.csv no 'hoze' belongs to a kit of the kind 'dust'; did you mean 'hose'? "
            "else add it to kits.csv, or leave it if it went along beyond the list [issues/unknown-item]\n");
  EXPECT_EQ(
      told_of("K-1,dust,PUMP-1,hose,yes\n"),
      "issues.csv:2:17: remark: the row names PUMP-1, a pump, and beside it 'hose', which by kits.csv is something "
      "else; it is taken as a row of PUMP-1; give each thing a row of its own: an instrument by its name, an item "
      "without a serial number by its item alone [issues/two-things]\n");
  EXPECT_NE(told_of("K-1,dust,PUMP-1,lamp,\n").find("[issues/unknown-item]"), std::string::npos);
  EXPECT_EQ(told_of("K-1,dust,PUMP-1,pump,\n"), "");
  EXPECT_EQ(told_of("K-1,dust,PUMP-1,,\n"), "");
  EXPECT_EQ(told_of("K-1,dust,,hose,\n"), "");
}

}  // namespace
}  // namespace driftwarden::issues_file_test
