// SPDX-License-Identifier: MIT
#include "verdict/finding.hpp"

#include <gtest/gtest.h>

namespace driftwarden::finding_test {
namespace {

TEST(Verdict, IsNamedAsReportsSayIt) {
  EXPECT_EQ(to_text(Verdict::valid), "valid");
  EXPECT_EQ(to_text(Verdict::qualified), "qualified");
  EXPECT_EQ(to_text(Verdict::undecided), "undecided");
  EXPECT_EQ(to_text(Verdict::void_), "void");
}

TEST(Verdict, IsWorseFromValidToVoid) {
  EXPECT_LT(Verdict::valid, Verdict::qualified);
  EXPECT_LT(Verdict::qualified, Verdict::undecided);
  EXPECT_LT(Verdict::undecided, Verdict::void_);
}

TEST(Verdict, FollowsFromAnOutcome) {
  EXPECT_EQ(verdict_of(Outcome::void_), Verdict::void_);
  EXPECT_EQ(verdict_of(Outcome::undecided), Verdict::undecided);
  EXPECT_EQ(verdict_of(Outcome::qualified), Verdict::qualified);
}

TEST(Verdict, IsNotWorsenedByANoteOrByARuleThatIsMetOrPassedOver) {
  EXPECT_EQ(verdict_of(Outcome::note), Verdict::valid);
  EXPECT_EQ(verdict_of(Outcome::met), Verdict::valid);
  EXPECT_EQ(verdict_of(Outcome::skipped), Verdict::valid);
}

}  // namespace
}  // namespace driftwarden::finding_test
