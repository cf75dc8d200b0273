// SPDX-License-Identifier: MIT
#include "command/completion.hpp"

#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::completion_test {
namespace {

std::string after(std::vector<std::string> words) {
  words.insert(words.begin(), {"complete", "--"});
  return call(words).out;
}

TEST(Completion, KnowsTheCommands) {
  EXPECT_EQ(after({"sc"}), "screen\n");
  EXPECT_EQ(after({"rules", "m"}), "measures\n");
  EXPECT_EQ(after({"he"}), "help\n");
}

TEST(Completion, DoesNotOfferWhatIsNotForPeople) { EXPECT_EQ(after({"comp"}), "compare\n"); }

TEST(Completion, KnowsTheOptionsOfACommand) { EXPECT_EQ(after({"screen", "--fo"}), "--format\n"); }

TEST(Completion, KnowsWhatAnOptionTakes) {
  EXPECT_EQ(after({"screen", "--format", ""}), "csv\njson\nresults\nsarif\ntable\n");
}

TEST(Completion, KnowsTheNamesInABook) {
  BookText text = judged_text();
  text.samples =
      "sample,pump,batch,started,stopped\nS1,P1,west bay,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,P2,east,2026-09-21T08:00,2026-09-21T16:00\n";
  const CalledBook book(text);
  EXPECT_EQ(after({"screen", book.path(), "--batch", ""}), "east\nwest bay\n");
  EXPECT_EQ(after({"screen", book.path(), "--sample", "S"}), "S1\nS2\n");
  EXPECT_EQ(after({"explain", book.path(), "S2"}), "S2\n");
  EXPECT_EQ(after({"history", book.path(), "P"}), "P1\nP2\n");
  EXPECT_EQ(after({"history", book.path(), "P1", "P"}), "P1\nP2\n");
  EXPECT_EQ(after({"decide", book.path(), "S1", ""}), "S1\nS2\noverrule\nown/drift\nuphold\n");
  EXPECT_EQ(after({"decide", book.path(), "S1", "own/drift", "ov"}), "overrule\n");
  EXPECT_EQ(after({"actions", book.path(), ""}), "P1\nP2\nS1\nS2\nV1\nV2\neast\nwest bay\n");
  EXPECT_EQ(after({"actions", book.path(), "--what", "Sa"}), "Sample again\n");
}

TEST(Completion, KnowsTheShippedRules) {
  EXPECT_EQ(after({"rules", "show", "common-practice/dr"}), "common-practice/drift\n");
}

TEST(Completion, LeavesFilesToTheShellAndSaysNothingOfABookItCannotRead) {
  EXPECT_EQ(after({"screen", "boo"}), "");
  EXPECT_EQ(after({"screen", "--out", "f"}), "");
  const Called called = call({"complete", "--", "explain", "/nowhere", ""});
  EXPECT_EQ(called.out + called.err, "");
  EXPECT_EQ(call({"complete"}).status, 0);
}

}  // namespace
}  // namespace driftwarden::completion_test
