// SPDX-License-Identifier: MIT
#include "record/laboratory_result.hpp"

#include <gtest/gtest.h>

namespace driftwarden::laboratory_result_test {
namespace {

// derived: U over its factor.
TEST(LaboratoryResult, StatesAStandardUncertaintyByItsFactorOrTheUsualOne) {
  LaboratoryResult result;
  result.found = 0.5;
  result.expanded = 0.03;
  result.coverage_factor = 3;
  EXPECT_DOUBLE_EQ(result.standard_uncertainty(), 0.01);
  result.coverage_factor = missing;
  EXPECT_DOUBLE_EQ(result.standard_uncertainty(), 0.015);
  result.is_relative = true;
  result.expanded = 0.1;
  EXPECT_DOUBLE_EQ(result.standard_uncertainty(), 0.025);
  result.found = -0.5;  // of a medium that lost weight
  EXPECT_DOUBLE_EQ(result.standard_uncertainty(), 0.025);
}

TEST(LaboratoryResult, IsLessThanWhereThereIsALimitAndNothingWasFound) {
  LaboratoryResult result;
  EXPECT_FALSE(result.is_less_than());
  result.limit = 0.03;
  EXPECT_TRUE(result.is_less_than());
  EXPECT_TRUE(is_missing(result.standard_uncertainty()));
  result.found = 0.02;
  EXPECT_FALSE(result.is_less_than());
  EXPECT_FALSE(result.is_weighed());
}

}  // namespace
}  // namespace driftwarden::laboratory_result_test
