// SPDX-License-Identifier: MIT
#include "book/short_text.hpp"

#include <gtest/gtest.h>

#include <string>

namespace driftwarden::short_text_test {
namespace {

TEST(ShortText, IsTheSameOnlyWhereEveryByteIs) {
  const std::string text = "calibrator-of-20-byt";
  for (std::size_t size = 0; size <= text.size(); ++size) {
    const std::string a = text.substr(0, size);
    EXPECT_TRUE(is_same_text(a, std::string(a)));
    EXPECT_FALSE(is_same_text(a, a + "x"));
    for (std::size_t i = 0; i < size; ++i) {
      std::string b = a;
      b[i] = '\0';
      EXPECT_FALSE(is_same_text(a, b)) << size << ' ' << i;
    }
  }
}

}  // namespace
}  // namespace driftwarden::short_text_test
