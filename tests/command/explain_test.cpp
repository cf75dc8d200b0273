// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::explain_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Explain, AnswersWithTheVerdictOfTheSample) {
  const CalledBook void_book(judged_text("2 %"));
  const Called of_void = call({"explain", void_book.path(), "S1"});
  EXPECT_EQ(of_void.status, 1);
  EXPECT_TRUE(has(of_void.out, "Sample S1: void   [samples.csv:2]\n")) << of_void.out;
  const CalledBook valid_book(judged_text("5 %"));
  const Called of_valid = call({"explain", valid_book.path(), "S1"});
  EXPECT_EQ(of_valid.status, 0);
  EXPECT_TRUE(has(of_valid.out, "Sample S1: valid   [samples.csv:2]\n")) << of_valid.out;
}

TEST(Explain, AnswersOneOfASampleThatIsUndecided) {
  BookText text = judged_text("5 %");
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n";
  const CalledBook book(text);
  const Called called = call({"explain", book.path(), "S1"});
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "Sample S1: undecided")) << called.out;
}

TEST(Explain, OfABookWithFaultsAnswersThatItCannotBeUsed) {
  BookText text = judged_text("5 %");
  text.samples += "S2,P9,2026-09-21T08:00,2026-09-21T16:00\n";
  const CalledBook book(text);
  const Called called = call({"explain", book.path(), "S1"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.out, "Sample S1: valid")) << called.out;  // still judged and shown
  EXPECT_TRUE(has(called.err, "samples.csv:3:4: error")) << called.err;
}

TEST(Explain, OfAnUnknownSampleNamesTheNearest) {
  const CalledBook book(judged_text());
  const Called called = call({"explain", book.path(), "S2"});
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.out, "");
  EXPECT_TRUE(has(called.err, "the book has no sample 'S2'")) << called.err;
}

TEST(Explain, HasColourOnATerminalOnly) {
  const CalledBook book(judged_text());
  EXPECT_FALSE(has(call({"explain", book.path(), "S1"}).out, "\x1b["));
  EXPECT_TRUE(has(call({"explain", book.path(), "S1"}, true).out, "\x1b["));
}

}  // namespace
}  // namespace driftwarden::explain_test
