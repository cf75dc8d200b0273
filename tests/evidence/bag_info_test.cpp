// SPDX-License-Identifier: MIT
#include "evidence/bag_info.hpp"

#include <gtest/gtest.h>

namespace driftwarden::bag_info_test {
namespace {

TEST(BagInfo, SaysWhoMadeTheBagWhenAndHowMuchIsInIt) {
  EXPECT_EQ(bag_info_text({"0.1.0", "Quarry", day_from({2026, 11, 16})}, {1234, 5}),
            "Bag-Software-Agent: driftwarden 0.1.0\nBagging-Date: 2026-11-16\nPayload-Oxum: 1234.5\n"
            "External-Description: Evidence of air-sampling flow: Quarry\n");
}

TEST(BagInfo, HasNoLineThatATitleBrings) {
  const std::string text = bag_info_text({"0.1.0", "Quarry\nPayload-Oxum: 0.0", 0}, {1, 1});
  EXPECT_EQ(bag_info_value(text, "Payload-Oxum"), "1.1");
  EXPECT_NE(text.find("'Quarry\\x0aPayload-Oxum: 0.0'"), std::string::npos) << text;
}

TEST(BagInfo, IsFoundUnderItsLabel) {
  EXPECT_EQ(bag_info_value("A: 1\nPayload-Oxum: 2.3\n", "Payload-Oxum"), "2.3");
  EXPECT_EQ(bag_info_value("A: 1\nPayload-Oxum: 2.3", "Payload-Oxum"), "2.3");
  EXPECT_EQ(bag_info_value("A: 1\nPayload: 2.3\n", "Payload-Oxum"), "");
  EXPECT_EQ(bag_info_value("Payload-Oxum-Old: 1.1\nPayload-Oxum: 2.3\n", "Payload-Oxum"), "2.3");
  EXPECT_EQ(bag_info_value("", "Payload-Oxum"), "");
}

}  // namespace
}  // namespace driftwarden::bag_info_test
