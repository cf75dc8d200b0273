// SPDX-License-Identifier: MIT
#include "diagnostic/escaped.hpp"

#include <gtest/gtest.h>

namespace driftwarden::escaped_test {
namespace {

TEST(Escaped, ShowsEachByte) {
  EXPECT_EQ(escaped(std::string_view("\x1b\0\xc2\x9b", 4)), "\\x1b\\x00\\xc2\\x9b");
  EXPECT_EQ(escaped(""), "");
}

}  // namespace
}  // namespace driftwarden::escaped_test
