// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::decisions_file_test {
namespace {

const std::string heading = "decided,by,subject,rule,ruling,reason\n";

Book book_with(const std::string& decisions) { return WrittenBook().file("decisions.csv", decisions).read(); }

TEST(DecisionsFile, FillsEveryFieldOfADecisionInTheOrderOfTheFile) {
  const Book book = book_with(heading +
                              "2026-05-02T09:00Z,hygienist 1,S-1,common-practice/drift,overrule,\"the post "
                              "reading\nwas \"\"wet\"\"\"\n2026-05-03T09:00Z,hygienist 2,S-1,common-practice/drift,"
                              "UPHOLD,void it is\n");
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.decisions.size(), 2U);
  const Decision& it = book.decisions[0];
  EXPECT_EQ(it.decided, 1777712400);
  EXPECT_EQ(it.by, "hygienist 1");
  EXPECT_EQ(it.subject, "S-1");
  EXPECT_EQ(it.rule, "common-practice/drift");
  EXPECT_EQ(it.ruling, Ruling::overrule);
  EXPECT_EQ(it.reason, "the post reading\nwas \"wet\"");
  EXPECT_EQ(book.decisions[1].ruling, Ruling::uphold);
  EXPECT_EQ(book.place_text(book.files.decisions, book.decisions[1].place), "decisions.csv:4");
}

TEST(DecisionsFile, TellsEveryFaultAndLetsAFaultyDecisionDecideNothing) {
  const Book book = book_with(heading +
                              "2026-05-02,hygienist 1,S-1,common-practice/drift,overrule,wet\n"
                              "2026-05-02T09:00,,S-1,common-practice/drift,overruled,wet\n"
                              "2026-05-02T09:00,hygienist 1,,,uphold,\n"
                              "2026-05-02T09:00,hygienist 1,S-1,common-practice/drift,uphold,yes, it is\n"
                              "2026-05-02T09:00,hygienist 1,S-1,common-practice/drift,uphold,yes\n");
  EXPECT_EQ(
      told(book.problems),
      "decisions.csv:2:1: error: '2026-05-02' is a date without a time of day; write the time too, as "
      "2026-05-02T07:15 [time/date-only]\n"
      "decisions.csv:3:18: error: the cell under 'by' is empty; every row needs one [cell/empty]\n"
      "decisions.csv:3:45: error: 'overruled' is no word for 'ruling'; did you mean 'overrule'? write uphold or "
      "overrule [cell/unknown-word]\n"
      "decisions.csv:4:30: error: the cell under 'subject' is empty; every row needs one [cell/empty]\n"
      "decisions.csv:4:31: error: the cell under 'rule' is empty; every row needs one [cell/empty]\n"
      "decisions.csv:4:39: error: the cell under 'reason' is empty; every row needs one [cell/empty]\n"
      "decisions.csv:5: error: the row has 7 cells, the heading line 6; write one cell for each heading; a cell that "
      "holds the separator goes in quotes [csv/cell-count]\n");
  ASSERT_EQ(book.decisions.size(), 1U);
  EXPECT_EQ(book.decisions[0].place.line, 6U);
}

TEST(DecisionsFile, TellsOfASampleThatNobodyKnowsWithTheNearest) {
  const Book book = book_with(heading +
                              "2026-05-02T09:00,h,S-11,own/drift,overrule,wet\n"
                              "2026-05-02T09:00,h,tunnel,own/drift,overrule,wet\n"
                              "2026-05-02T09:00,h,S-1,own/drift,overrule,wet\n");
  EXPECT_EQ(told(book.problems),
            "decisions.csv:2:20: error: the sample 'S-11' is in no samples file; did you mean 'S-1'? "
            "[decision/unknown-sample]\n"
            "decisions.csv:3:20: error: the sample 'tunnel' is in no samples file; correct the name "
            "[decision/unknown-sample]\n");
  EXPECT_EQ(book.decisions.size(), 1U);
}

TEST(DecisionsFile, DoubtsNoNameWhereSamplesWereLost) {
  const Book book = WrittenBook()
                        .file("samples/lost.csv", "nothing\nS-9\n")
                        .file("decisions.csv", heading + "2026-05-02T09:00,h,S-9,own/drift,overrule,wet\n")
                        .read();
  EXPECT_EQ(told(book.problems).find("decision/"), std::string::npos) << told(book.problems);
}

TEST(DecisionsFile, SaysThatUnknownColumnsAreNotUsed) {
  const Book book =
      book_with("decided,by,subject,rule,ruling,reason,Mood\n2026-05-02T09:00Z,h,S-1,a/b,uphold,r,good\n");
  EXPECT_EQ(told(book.problems),
            "decisions.csv:1:39: remark: columns without a meaning here are not used: 'Mood' [heading/unknown]\n");
  EXPECT_EQ(book.decisions.size(), 1U);
}

}  // namespace
}  // namespace driftwarden::decisions_file_test
