// SPDX-License-Identifier: MIT
#include "diagnostic/letters.hpp"

#include <gtest/gtest.h>

namespace driftwarden::letters_test {
namespace {

TEST(Letters, CapitalsOfAsciiAreFoldedAndNothingElse) {
  EXPECT_EQ(in_small_letters("AZ az 09 @[ Ä"), "az az 09 @[ Ä");
  EXPECT_EQ(in_small_letters(""), "");
}

}  // namespace
}  // namespace driftwarden::letters_test
