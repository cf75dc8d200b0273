// SPDX-License-Identifier: MIT
#include "diagnostic/hexadecimal.hpp"

#include <gtest/gtest.h>

namespace driftwarden::hexadecimal_test {
namespace {

std::string written(unsigned number, unsigned count, std::string_view digits = small_hexadecimal) {
  std::string text = "x";
  append_hexadecimal(text, number, count, digits);
  return text;
}

TEST(Hexadecimal, HasAsManyDigitsAsAreAskedFor) {
  EXPECT_EQ(written(0x1B, 2), "x1b");
  EXPECT_EQ(written(0xAD, 4, capital_hexadecimal), "x00AD");
  EXPECT_EQ(written(0x12345, 2), "x45");
  EXPECT_EQ(written(0xFFFFFFFF, 8), "xffffffff");
  EXPECT_EQ(written(1, 0), "x");
}

// printed: RFC 3986, 2.1 (a blank) and 2.3 (unreserved characters).
TEST(PercentEncoded, LeavesWhatIsUnreserved) {
  EXPECT_EQ(percent_encoded("a b/Z-9._~"), "a%20b/Z-9._~");
  EXPECT_EQ(percent_encoded("ä#?%"), "%C3%A4%23%3F%25");
}

}  // namespace
}  // namespace driftwarden::hexadecimal_test
