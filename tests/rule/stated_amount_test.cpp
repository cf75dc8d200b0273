// SPDX-License-Identifier: MIT
#include "rule/stated_amount.hpp"

#include <gtest/gtest.h>

#include "rule/pack_text.hpp"

namespace driftwarden::stated_amount_test {
namespace {

constexpr AmountOf drift = {"drift", Dimension::ratio, Dimension::flow};
constexpr AmountOf minutes = {"minutes", Dimension::time, std::nullopt};
constexpr AmountOf count = {"pre.count", Dimension::count, std::nullopt};
const Place here = {"p.toml", 3, 9};

std::string faults_of(std::string_view text, const AmountOf& of) {
  return lines_of(stated_amount(text, of, here).faults());
}

TEST(StatedAmount, IsReadInTheUnitInside) {
  const auto five_percent = stated_amount("5 %", drift, here);
  ASSERT_TRUE(five_percent);
  EXPECT_EQ(five_percent->amount.value, 0.05);
  EXPECT_FALSE(five_percent->is_absolute);
  EXPECT_EQ(stated_amount("8 h", minutes, here)->amount.value, 480);
  EXPECT_EQ(stated_amount("0 d", minutes, here)->amount.value, 0);
}

TEST(StatedAmount, OfARatioMayBeTheDifferenceBehindIt) {
  const auto difference = stated_amount("-100 mL/min", drift, here);
  ASSERT_TRUE(difference);
  EXPECT_TRUE(difference->is_absolute);
  EXPECT_EQ(difference->amount.value, -0.1);
  EXPECT_EQ(difference->amount.written_unit.name, "mL/min");
}

TEST(StatedAmount, OfACountIsAPlainNumber) {
  EXPECT_EQ(stated_amount("3", count, here)->amount.value, 3);
  EXPECT_EQ(faults_of("3 min", count),
            "p.toml:3:9: error: '3 min' is a time, pre.count a count; write a number without a unit "
            "[amount/wrong-dimension]\n");
}

TEST(StatedAmount, WithoutAUnitIsAnErrorAndNoGuess) {
  EXPECT_EQ(faults_of("5", minutes),
            "p.toml:3:9: error: '5' lacks a unit; units read are s, min, h, d [amount/no-unit]\n");
  EXPECT_EQ(faults_of("0.05", drift),
            "p.toml:3:9: error: '0.05' lacks a unit; units read are % or, of the difference itself, L/min, mL/min, "
            "cm3/min, m3/h, m3/min, ft3/min [amount/no-unit]\n");
}

TEST(StatedAmount, OfAnotherDimensionIsAnError) {
  EXPECT_EQ(faults_of("5 kPa", minutes),
            "p.toml:3:9: error: '5 kPa' is a pressure, minutes a time; units read are s, min, h, d "
            "[amount/wrong-dimension]\n");
}

TEST(StatedAmount, IsNothingThatCannotBeRead) {
  EXPECT_EQ(faults_of("soon", minutes),
            "p.toml:3:9: error: 'soon' is no amount of minutes; units read are s, min, h, d [amount/not-an-amount]\n");
  EXPECT_EQ(faults_of("nan min", minutes),
            "p.toml:3:9: error: 'nan min' is no amount of minutes; units read are s, min, h, d "
            "[amount/not-an-amount]\n");
  EXPECT_FALSE(faults_of("", minutes).empty());
}

}  // namespace
}  // namespace driftwarden::stated_amount_test
