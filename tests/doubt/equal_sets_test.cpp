// SPDX-License-Identifier: MIT
#include "doubt/equal_sets.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "doubt/honest_book.hpp"

namespace driftwarden::equal_sets_test {
namespace {

// Seven readings of the display of V1, all the same: too many for a scatter of 2.5 steps.
BookText with_seven_alike(const std::string& sample) {
  BookText text = honest_book(1);
  const auto lines = lines_of(text.readings, sample);
  for (std::size_t i = 0; i < 5; ++i) set_flow(text.readings, lines[i], "2.003");
  for (const char* minute : {"T07:35", "T07:36"}) {
    std::string more = lines_of(text.readings, sample)[4];
    more.replace(more.find("T07:34"), 6, minute);
    text.readings += more + "\n";
  }
  return text;
}

TEST(EqualSets, OfSevenAreToldWithHowOftenChanceMakesThem) {
  const Diagnostics doubts = doubts_of(book_of(with_seven_alike("D9")));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts[0].id, "doubt/identical");
  EXPECT_NE(doubts[0].message.find("all 7 readings of a set of D9 are the same; as those of V1 on P2 scatter (0.1"),
            std::string::npos)
      << doubts[0].message;
  EXPECT_NE(doubts[0].message.find("and among the 56 sets of this book once in "), std::string::npos)
      << doubts[0].message;
}

TEST(EqualSets, CountEachReadingOnceThatWasWrittenDownTwice) {
  BookText text = with_seven_alike("D9");
  text.readings += text.readings.substr(text.readings.find('\n') + 1);
  const Diagnostics doubts = doubts_of(book_of(text));
  const auto equal = std::ranges::find(doubts, "doubt/identical", &Diagnostic::id);
  ASSERT_NE(equal, doubts.end());
  EXPECT_TRUE(equal->message.starts_with("all 7 readings of a set of D9 are the same")) << equal->message;
}

// Where the other sets of a pump are as steady as this one, nothing is amiss.
TEST(EqualSets, OfASteadyPumpAreNotTold) {
  BookText text = with_seven_alike("D9");
  for (int day = 1; day <= days; day += 2) {
    for (const std::string& line : lines_of(text.readings, "D" + std::to_string(day))) {
      const char last = line[line.find("2026-09-") + 15];
      set_flow(text.readings, line, last == '2' ? "2.004" : "2.003");
    }
  }
  EXPECT_EQ(ids(text), Ids());
}

// derived: of fine displays the chance of n equal readings falls like σ^-(n-1); over χ² with ν degrees of freedom its
// mean is larger by the factors 1 for n 3 and 1 + 2/ν for n 5.
TEST(EqualSets, AreLessRareWhereTheScatterIsEstimated) {
  const auto times = [](std::size_t n, double dof) {
    return chance_of_equal(n, {20, dof}) / chance_of_equal(n, {20, 1e6});
  };
  EXPECT_NEAR(times(3, 10), 1, 0.001);
  EXPECT_NEAR(times(5, 10), 1.2, 0.001);
  EXPECT_EQ(chance_of_equal(5, {}), 1);
}

}  // namespace
}  // namespace driftwarden::equal_sets_test
