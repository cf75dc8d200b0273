// SPDX-License-Identifier: MIT
#include "book/toml_guard.hpp"

#include <gtest/gtest.h>

namespace driftwarden::toml_guard_test {
namespace {

std::string repeated(std::string_view text, std::size_t times) {
  std::string all;
  for (std::size_t i = 0; i < times; ++i) all += text;
  return all;
}

std::string fault_of(const std::string& text) {
  const auto fault = fault_of_size_or_depth(text, "p.toml");
  return fault ? to_text(*fault) : "";
}

const std::string too_deep =
    "error: brackets or dotted keys are nested too deep; at most 32 brackets and 16 parts of a key are read "
    "[toml/too-deep]";

TEST(TomlGuard, LetsAMegabytePassAndNotAByteMore) {
  EXPECT_EQ(fault_of(std::string(1'000'000, ' ')), "");
  EXPECT_EQ(fault_of(std::string(1'000'001, ' ')),
            "p.toml: error: the file has 1000001 bytes; at most 1000000 are read [toml/too-large]");
}

TEST(TomlGuard, RefusesBracketsNestedTooDeep) {
  EXPECT_EQ(fault_of("é = " + repeated("[", 32)), "");
  EXPECT_EQ(fault_of("\né = " + repeated("[", 33)), "p.toml:2:37: " + too_deep);
  EXPECT_EQ(fault_of("a = " + repeated("{b=", 33)), "p.toml:1:101: " + too_deep);
  EXPECT_EQ(fault_of(repeated("[a]\n", 1000)), "");
}

TEST(TomlGuard, RefusesKeysOfTooManyParts) {
  EXPECT_EQ(fault_of(repeated("a.", 15) + "a = 1"), "");
  EXPECT_EQ(fault_of(repeated("a.", 16) + "a = 1"), "p.toml:1:32: " + too_deep);
  EXPECT_EQ(fault_of("[" + repeated("'a' . ", 16) + "a]"), "p.toml:1:96: " + too_deep);
  EXPECT_EQ(fault_of("a = [" + repeated("1.5, ", 100) + "]"), "");
}

TEST(TomlGuard, DoesNotCountWhatIsTextOrComment) {
  const std::string deep = repeated("[", 40) + repeated("a.", 40);
  EXPECT_EQ(fault_of("# " + deep), "");
  EXPECT_EQ(fault_of("a = '" + deep + "'"), "");
  EXPECT_EQ(fault_of("a = \"\\\"" + deep + "\""), "");
  EXPECT_EQ(fault_of("a = '''" + deep + "\n''" + deep + "'''"), "");
  EXPECT_EQ(fault_of("a = \"\"\"" + deep + "\\\"\"\"" + deep + "\"\"\""), "");
}

TEST(TomlGuard, CountsAgainBehindText) {
  const std::string deep = repeated("[", 33);
  for (const std::string text :
       {"''", "\"\"", "'\\'", "\"\\\\\"", "''''''", "'''a'''''", "\"\"\"a\"\"\"\"\"", "'a\n", "# '\n"}) {
    EXPECT_NE(fault_of(text + deep), "") << text;
  }
}

}  // namespace
}  // namespace driftwarden::toml_guard_test
