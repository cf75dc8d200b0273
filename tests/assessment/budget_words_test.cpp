// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <set>

#include "assessment/budget.hpp"

namespace driftwarden::budget_words_test {
namespace {

TEST(BudgetWords, NameEachSourceOnce) {
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < static_cast<std::size_t>(BudgetSource::count_); ++i) {
    const std::string_view name = to_text(static_cast<BudgetSource>(i));
    EXPECT_FALSE(name.empty());
    EXPECT_TRUE(names.insert(name).second) << name;
  }
}

TEST(BudgetWords, GiveEachSourceTheUnitOfWhatItIs) {
  EXPECT_EQ(unit_of(BudgetSource::post_resolution), "L/min");
  EXPECT_EQ(unit_of(BudgetSource::flow_between), "L/min");
  EXPECT_EQ(unit_of(BudgetSource::certificate), "1");
  EXPECT_EQ(unit_of(BudgetSource::pre_interpolation), "1");
  EXPECT_EQ(unit_of(BudgetSource::reading_temperature), "K");
  EXPECT_EQ(unit_of(BudgetSource::altitude_pressure), "kPa");
  EXPECT_EQ(unit_of(BudgetSource::stop_time), "min");
}

TEST(BudgetWords, GiveFiguresTheirUnits) {
  EXPECT_EQ(unit_of(BudgetFigure::drift), "1");
  EXPECT_EQ(unit_of(BudgetFigure::flow), "L/min");
  EXPECT_EQ(unit_of(BudgetFigure::volume), "L");
  EXPECT_EQ(unit_of(BudgetFigure::volume_reference), "L");
}

TEST(BudgetWords, NameDistributionsAsMetrologyDoes) {
  EXPECT_EQ(to_text(Distribution::student_t), "t");
  EXPECT_EQ(to_text(Distribution::normal), "normal");
  EXPECT_EQ(to_text(Distribution::rectangular), "rectangular");
}

}  // namespace
}  // namespace driftwarden::budget_words_test
