// SPDX-License-Identifier: MIT
#include "record/issue.hpp"

#include <gtest/gtest.h>

namespace driftwarden::issue_test {
namespace {

TEST(CameBack, IsToldInItsWord) {
  EXPECT_EQ(to_text(CameBack::unsaid), "");
  EXPECT_EQ(to_text(CameBack::good), "good");
  EXPECT_EQ(to_text(CameBack::damaged), "damaged");
}

TEST(Issue, IsOfAKitThatMayBeCalledLikeItsKind) {
  Issue issue;
  issue.kit = "K-1";
  EXPECT_EQ(issue.kind_of_kit(), "K-1");
  issue.kind = "dust";
  EXPECT_EQ(issue.kind_of_kit(), "dust");
}

}  // namespace
}  // namespace driftwarden::issue_test
