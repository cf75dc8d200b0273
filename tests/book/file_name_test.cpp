// SPDX-License-Identifier: MIT
#include "book/file_name.hpp"

#include <gtest/gtest.h>

namespace driftwarden::file_name_test {
namespace {

TEST(FileNames, KeepOnlyWhatEveryFileSystemTakes) {
  EXPECT_EQ(as_file_name("PUMP-04"), "PUMP-04");
  EXPECT_EQ(as_file_name("../etc/x"), "_.._etc_x");
  EXPECT_EQ(as_file_name(""), "_");
  EXPECT_EQ(as_file_name("as-found-error at 2 L/min"), "as-found-error_at_2_L_min");
}

TEST(FreshNames, AreNeverGivenTwice) {
  FreshNames names;
  EXPECT_EQ(names.name("S_1", ".txt"), "S_1.txt");
  EXPECT_EQ(names.name("S_1", ".txt"), "S_1-2.txt");
  EXPECT_EQ(names.name("s_1", ".txt"), "s_1-3.txt") << "some systems take it for the first";
  EXPECT_EQ(names.name("S_2", ".txt"), "S_2.txt");
}

TEST(FreshNames, AreShort) {
  FreshNames names;
  EXPECT_EQ(names.name(std::string(4000, 'x'), ".txt"), std::string(100, 'x') + ".txt");
  EXPECT_EQ(names.name(std::string(4001, 'x'), ".txt"), std::string(100, 'x') + "-2.txt");
}

}  // namespace
}  // namespace driftwarden::file_name_test
