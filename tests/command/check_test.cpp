// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::check_test {
namespace {

TEST(Check, CountsWhatABookHolds) {
  const BookFolder book;
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 0);
  EXPECT_EQ(called.out,
            "Quarry: 4 instruments, 2 certificates, 1 sample, 2 readings, 0 decisions; 0 faults, 0 remarks\n");
  EXPECT_EQ(called.err, "");
}

TEST(Check, TellsEveryFaultInOneRunInOrderOfPlace) {
  BookText text;
  text.samples += "S2,P9,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings += "2026-09-21T16:11,post,S1,V1,1.9S\n2026-09-21T16:12,psot,S1,V1,1.9\n";
  const BookFolder book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.out.find("; 3 faults, 0 remarks\n"), std::string::npos) << called.out;
  const std::size_t first = called.err.find("readings.csv:4:29: error: '1.9S' is not a number");
  const std::size_t second =
      called.err.find("readings.csv:5:18: error: 'psot' is no word for 'stage'; did you mean 'post'?");
  const std::size_t third = called.err.find("samples.csv:3:4: error: 'P9' is not a pump of instruments.csv");
  EXPECT_LT(first, second) << called.err;
  EXPECT_LT(second, third) << called.err;
  EXPECT_NE(third, std::string::npos) << called.err;
}

TEST(Check, TellsRemarksAndThinksNoWorse) {
  BookText text;
  text.samples = "sample,pump,started,stopped,weather\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,rain\n";
  const BookFolder book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 0);
  EXPECT_NE(called.out.find("; 0 faults, 1 remark\n"), std::string::npos) << called.out;
  EXPECT_NE(called.err.find("'weather'"), std::string::npos) << called.err;
}

TEST(Check, TellsTheFaultsOfTheRules) {
  BookText text = judged_text();
  text.rules.replace(text.rules.find("drift\"\nwithin"), 5, "drfit");
  const BookFolder book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.out.find("; 1 fault, 0 remarks\n"), std::string::npos) << called.out;
  EXPECT_NE(called.err.find("did you mean 'drift'?"), std::string::npos) << called.err;
}

TEST(Check, TellsTheRemarksOnTheRules) {
  BookText text = judged_text();
  text.rules.replace(text.rules.find("measure ="), 0, "where = { sampler = \"respirable-cylcone\" }\n");
  const BookFolder book(text);
  const Called called = call({"check", book.path()});
  EXPECT_EQ(called.status, 0);
  EXPECT_NE(called.out.find("; 0 faults, 1 remark\n"), std::string::npos) << called.out;
  EXPECT_NE(called.err.find("'respirable-cylcone'"), std::string::npos) << called.err;
}

TEST(Check, JudgesNothing) {
  const BookFolder book(judged_text());
  EXPECT_EQ(call({"check", book.path()}).status, 0);  // though S1 is void by that rule
}

TEST(Check, OfWhatIsNoBookSaysSo) {
  const ScratchFolder empty;
  const Called called = call({"check", empty.path().string()});
  EXPECT_EQ(called.status, 2);
  EXPECT_NE(called.err.find("book/no-settings"), std::string::npos) << called.err;
  EXPECT_NE(call({"check", "/no/such/folder"}).err.find("book/no-folder"), std::string::npos);
}

}  // namespace
}  // namespace driftwarden::check_test
