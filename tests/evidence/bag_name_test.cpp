// SPDX-License-Identifier: MIT
#include "evidence/bag_name.hpp"

#include <gtest/gtest.h>

namespace driftwarden::bag_name_test {
namespace {

TEST(BagName, IsAPathThatStaysInside) {
  for (const char* name :
       {"bagit.txt", "data/book/readings/2026-W46.csv", "data/Meßwerte/25 °C.csv", "data/..a", "a-b_c"})
    EXPECT_EQ(fault_of_bag_name(name), "") << name;
}

TEST(BagName, LeadsNowhereElse) {
  EXPECT_EQ(fault_of_bag_name("data/../../etc/passwd"), "leads out of its folder");
  EXPECT_EQ(fault_of_bag_name(".."), "leads out of its folder");
  EXPECT_EQ(fault_of_bag_name("data/./a"), "has a part '.'");
  EXPECT_EQ(fault_of_bag_name("/etc/passwd"), "begins at the root");
  EXPECT_EQ(fault_of_bag_name("data//a"), "has an empty part");
  EXPECT_EQ(fault_of_bag_name("data/"), "has an empty part");
  EXPECT_EQ(fault_of_bag_name("~/a"), "has a part that begins with '~'");
  EXPECT_EQ(fault_of_bag_name(""), "is empty");
}

TEST(BagName, NeedsNoEscapingAndHasNoSecondMeaning) {
  EXPECT_EQ(fault_of_bag_name("data/50%.csv"), "holds '%'");
  EXPECT_EQ(fault_of_bag_name("data/a%2Fb"), "holds '%'");
  EXPECT_EQ(fault_of_bag_name("data\\a"), "holds '\\'");
  EXPECT_EQ(fault_of_bag_name("C:a"), "holds ':'");
  EXPECT_EQ(fault_of_bag_name("data/a\nb"), "holds control characters or bytes that are no UTF-8");
  EXPECT_EQ(fault_of_bag_name("data/a\xFF"), "holds control characters or bytes that are no UTF-8");
  for (const char* name : {"data/ a", "data/a ", "data/a.", "a /b"})
    EXPECT_EQ(fault_of_bag_name(name), "has a part that begins or ends with a blank, or ends with '.'") << name;
}

TEST(BagName, HasAnEnd) {
  EXPECT_EQ(fault_of_bag_name(std::string(255, 'a')), "");
  EXPECT_EQ(fault_of_bag_name(std::string(256, 'a')), "has a part of more than 255 bytes");
  std::string deep;
  for (int i = 0; i < 600; ++i) deep += "a/";
  EXPECT_EQ(fault_of_bag_name(deep + "a"), "is longer than 1000 bytes");
  EXPECT_EQ(fault_of_bag_name(deep.substr(0, 998) + "bc"), "");
  EXPECT_EQ(fault_of_bag_name(deep.substr(0, 998) + "bcd"), "is longer than 1000 bytes");
}

}  // namespace
}  // namespace driftwarden::bag_name_test
