// SPDX-License-Identifier: MIT
#include "record/decision.hpp"

#include <gtest/gtest.h>

namespace driftwarden::decision_test {
namespace {

TEST(Decision, RulingsAreWrittenAsInTheTable) {
  EXPECT_EQ(to_text(Ruling::uphold), "uphold");
  EXPECT_EQ(to_text(Ruling::overrule), "overrule");
}

TEST(Decision, UpholdsTheFindingUnlessSomebodySaysOtherwise) {
  const Decision decision;
  EXPECT_EQ(decision.ruling, Ruling::uphold);
  EXPECT_EQ(decision.decided, no_moment);
}

}  // namespace
}  // namespace driftwarden::decision_test
