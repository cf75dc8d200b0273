// SPDX-License-Identifier: MIT
#include "book/problem_list.hpp"

#include <gtest/gtest.h>

#include <set>
#include <thread>

#include "book/written_book.hpp"

namespace driftwarden::problem_list_test {
namespace {

TEST(ProblemList, NumbersProblemsFromOne) {
  ProblemList list;
  EXPECT_EQ(list.add(error("a/a", {"f", 1, 0}, "first")), 1U);
  EXPECT_EQ(list.add(remark("a/b", {"f", 1, 0}, "second")), 2U);
}

TEST(ProblemList, SortsByFileLineAndColumnAndNotByText) {
  ProblemList list;
  list.add(error("a/a", {"samples.csv", 10, 1}, "line ten"));
  list.add(error("a/a", {"samples.csv", 9, 12}, "column twelve"));
  list.add(error("a/a", {"samples.csv", 9, 2}, "column two"));
  list.add(error("a/a", {"readings.csv", 99, 0}, "another file"));
  list.add(error("a/a", {"samples.csv", 0, 0}, "the whole file"));
  EXPECT_EQ(told(list.sorted().problems),
            "readings.csv:99: error: another file [a/a]\n"
            "samples.csv: error: the whole file [a/a]\n"
            "samples.csv:9:2: error: column two [a/a]\n"
            "samples.csv:9:12: error: column twelve [a/a]\n"
            "samples.csv:10:1: error: line ten [a/a]\n");
}

TEST(ProblemList, SortsProblemsOfOnePlaceTheSameWhoeverAddedThemFirst) {
  const Diagnostic a = error("a/a", {"f", 1, 1}, "x");
  const Diagnostic b = error("b/b", {"f", 1, 1}, "a");
  const Diagnostic c = error("b/b", {"f", 1, 1}, "b");
  ProblemList forwards;
  forwards.add({a, b, c});
  ProblemList backwards;
  backwards.add({c, b, a});
  EXPECT_EQ(told(forwards.sorted().problems), told(backwards.sorted().problems));
}

TEST(ProblemList, GivesTheNewNumberOfEachOldOne) {
  ProblemList list;
  list.add(error("a/a", {"f", 3, 0}, "third"));
  list.add(error("a/a", {"f", 1, 0}, "first"));
  list.add(error("a/a", {"f", 2, 0}, "second"));
  EXPECT_EQ(list.sorted().new_number, (std::vector<ProblemNumber>{0, 3, 1, 2}));
}

TEST(ProblemList, ForgetsWhatWasAddedSinceAMark) {
  ProblemList list;
  list.add(error("a/a", {"f", 1, 0}, "kept"));
  const std::size_t mark = list.mark();
  list.add(error("a/a", {"f", 2, 0}, "forgotten"));
  list.back_to(mark);
  EXPECT_EQ(list.add(error("a/a", {"f", 3, 0}, "new")), 2U);
  EXPECT_EQ(told(list.sorted().problems), "f:1: error: kept [a/a]\nf:3: error: new [a/a]\n");
}

TEST(ProblemList, TakesABetterHintLater) {
  ProblemList list;
  list.add(error("a/a", {"f", 1, 0}, "one", "hint"));
  const ProblemNumber number = list.add(error("a/a", {"f", 2, 0}, "two", "hint"));
  list.set_hint(number, "better");
  EXPECT_EQ(told(list.sorted().problems), "f:1: error: one; hint [a/a]\nf:2: error: two; better [a/a]\n");
}

TEST(ProblemList, LosesNoneThatSeveralThreadsAddAtOnce) {
  ProblemList list;
  std::vector<std::vector<ProblemNumber>> numbers(4);
  std::vector<std::jthread> threads;
  for (std::uint32_t t = 0; t < numbers.size(); ++t) {
    threads.emplace_back([&list, &mine = numbers[t], t] {
      for (std::uint32_t i = 0; i < 500; ++i) mine.push_back(list.add(error("a/a", {"f", 500 * t + i + 1, 0}, "x")));
    });
  }
  threads.clear();
  const ProblemList::Sorted sorted = list.sorted();
  ASSERT_EQ(sorted.problems.size(), 2000U);
  for (std::uint32_t t = 0; t < numbers.size(); ++t) {
    for (std::uint32_t i = 0; i < 500; ++i) {
      EXPECT_EQ(sorted.problems[sorted.new_number[numbers[t][i]] - 1].place.line, 500 * t + i + 1);
    }
  }
}

}  // namespace
}  // namespace driftwarden::problem_list_test
