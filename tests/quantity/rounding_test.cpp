// SPDX-License-Identifier: MIT
#include "quantity/rounding.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <limits>
#include <string>

#include "quantity/number.hpp"

namespace driftwarden::rounding_test {
namespace {

// derived: rounded by hand on the decimal text, half away from zero.

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

// Hundredths as text, from an integer: the expected side of the comparison uses no floating point.
std::string hundredths(int count) {
  const int magnitude = std::abs(count);
  const std::string fraction = std::to_string(magnitude % 100);
  return (count < 0 ? "-" : "") + std::to_string(magnitude / 100) + (fraction.size() < 2 ? ".0" : ".") + fraction;
}

TEST(WithDecimals, TakesHalfAwayFromZeroOnTheTextNotOnTheBinaryNumber) {
  EXPECT_EQ(with_decimals(2.675, 2), "2.68");
  EXPECT_EQ(with_decimals(-2.675, 2), "-2.68");
  EXPECT_EQ(with_decimals(1.005, 2), "1.01");
  EXPECT_EQ(with_decimals(0.125, 2), "0.13");
  EXPECT_EQ(with_decimals(2.674999, 2), "2.67");
  EXPECT_EQ(with_decimals(0.5, 0), "1");
  EXPECT_EQ(with_decimals(2.5, 0), "3");
  EXPECT_EQ(with_decimals(0.05, 1), "0.1");
}

TEST(WithDecimals, AgreesWithWholeNumberArithmeticOnEveryThousandth) {
  for (int thousandths = -20'000; thousandths <= 20'000; ++thousandths) {
    const int rounded = (std::abs(thousandths) + 5) / 10 * (thousandths < 0 ? -1 : 1);
    ASSERT_EQ(with_decimals(thousandths / 1000.0, 2), hundredths(rounded)) << thousandths;
  }
}

TEST(WithDecimals, CarriesOverNines) {
  EXPECT_EQ(with_decimals(9.995, 2), "10.00");
  EXPECT_EQ(with_decimals(99.96, 1), "100.0");
  EXPECT_EQ(with_decimals(0.96, 0), "1");
  EXPECT_EQ(with_decimals(0.0996, 3), "0.100");
}

TEST(WithDecimals, FillsUpWithZeros) {
  EXPECT_EQ(with_decimals(2, 3), "2.000");
  EXPECT_EQ(with_decimals(1000, 1), "1000.0");
  EXPECT_EQ(with_decimals(0, 2), "0.00");
  EXPECT_EQ(with_decimals(0.00012, 2), "0.00");
}

TEST(WithDecimals, NeverWritesMinusZero) {
  EXPECT_EQ(with_decimals(-0.0, 1), "0.0");
  EXPECT_EQ(with_decimals(-0.04, 1), "0.0");
  EXPECT_EQ(with_decimals(-0.4, 0), "0");
  EXPECT_EQ(with_decimals(-1e-300, 3), "0.000");
  EXPECT_EQ(with_decimals(-0.05, 1), "-0.1");
}

TEST(WithDecimals, WritesLargeAndSmallNumbersOut) {
  EXPECT_EQ(with_decimals(1e21, 0), "1000000000000000000000");
  EXPECT_EQ(with_decimals(1.5e-7, 8), "0.00000015");
  EXPECT_EQ(with_decimals(123456789.125, 2), "123456789.13");
}

TEST(WithDecimals, IsEmptyForNotANumber) {
  EXPECT_EQ(with_decimals(not_a_number, 2), "");
  EXPECT_EQ(with_decimals(infinity, 2), "inf");
  EXPECT_EQ(with_decimals(-infinity, 2), "-inf");
}

TEST(WithSignificantDigits, CountsFromTheFirstDigitThatIsNotZero) {
  EXPECT_EQ(with_significant_digits(2.0416, 3), "2.04");
  EXPECT_EQ(with_significant_digits(0.00020416, 3), "0.000204");
  EXPECT_EQ(with_significant_digits(12345, 3), "12300");
  EXPECT_EQ(with_significant_digits(12355, 4), "12360");
  EXPECT_EQ(with_significant_digits(-2.0416, 2), "-2.0");
}

TEST(WithSignificantDigits, FillsUpWithZeros) {
  EXPECT_EQ(with_significant_digits(2, 3), "2.00");
  EXPECT_EQ(with_significant_digits(0.5, 2), "0.50");
  EXPECT_EQ(with_significant_digits(100, 3), "100");
}

TEST(WithSignificantDigits, CarriesOverNines) {
  EXPECT_EQ(with_significant_digits(9.996, 3), "10.0");
  EXPECT_EQ(with_significant_digits(0.9996, 3), "1.00");
  EXPECT_EQ(with_significant_digits(999.6, 3), "1000");
  EXPECT_EQ(with_significant_digits(0.0096, 1), "0.01");
}

TEST(WithSignificantDigits, WritesZeroPlainly) {
  EXPECT_EQ(with_significant_digits(0, 3), "0");
  EXPECT_EQ(with_significant_digits(-0.0, 3), "0");
  EXPECT_EQ(with_significant_digits(not_a_number, 3), "");
}

TEST(WithDecimalsBeyond, ShowsOnWhichSideOfTheLimitAFigureLies) {
  EXPECT_EQ(with_decimals_beyond(5.04, 1, 5), "5.04");
  EXPECT_EQ(with_decimals_beyond(4.96, 1, 5), "4.96");
  EXPECT_EQ(with_decimals_beyond(5.0004, 1, 5), "5.0004");
  EXPECT_EQ(with_decimals_beyond(4.9996, 1, 5), "4.9996");
  EXPECT_EQ(with_decimals_beyond(-5.04, 1, -5), "-5.04");
}

TEST(WithDecimalsBeyond, AddsNothingWhereTheSideIsPlain) {
  EXPECT_EQ(with_decimals_beyond(5.14, 1, 5), "5.1");
  EXPECT_EQ(with_decimals_beyond(4.74, 1, 5), "4.7");
  EXPECT_EQ(with_decimals_beyond(5, 1, 5), "5.0");
}

TEST(WithDecimalsBeyond, ShowsAFigureOnTheLimitAsTheLimit) {
  EXPECT_EQ(with_decimals_beyond(100 * (1.900 - 2.000) / 2.000, 1, -5), "-5.0");
  EXPECT_EQ(with_decimals_beyond(5.25, 1, 5.25), "5.25");
}

TEST(WithDecimalsBeyond, ShowsTheSideOfALimitOfZero) {
  EXPECT_EQ(with_decimals_beyond(-0.04, 1, 0), "-0.04");
  EXPECT_EQ(with_decimals_beyond(0.0004, 1, 0), "0.0004");
  EXPECT_EQ(with_decimals_beyond(1e-17, 1, 0), "0.0");
}

TEST(WithDecimalsBeyond, AlwaysEnds) {
  EXPECT_EQ(with_decimals_beyond(not_a_number, 1, 5), "");
  EXPECT_EQ(with_decimals_beyond(infinity, 1, 5), "inf");
  EXPECT_EQ(with_decimals_beyond(5.04, 1, not_a_number), "5.0");
  EXPECT_EQ(with_decimals_beyond(5.04, 1, infinity), "5.0");
  EXPECT_EQ(number_from(with_decimals_beyond(2e-300, 1, 1e-300)), 2e-300);
}

TEST(SignedPercent, HasASignWhereItIsNotNone) {
  EXPECT_EQ(signed_percent(0.0534, 2), "+5.34 %");
  EXPECT_EQ(signed_percent(-0.004, 1), "-0.4 %");
  EXPECT_EQ(signed_percent(0, 3), "0.000 %");
  EXPECT_EQ(signed_percent(0.0004, 1), "0.0 %");
  EXPECT_EQ(signed_percent(-0.0004, 1), "0.0 %");
  EXPECT_EQ(signed_percent(0.1, 0), "+10 %");
}

TEST(Counted, TakesTheNounThatGoesWithIt) {
  EXPECT_EQ(counted(1, "sample", "samples"), "1 sample");
  EXPECT_EQ(counted(0, "sample", "samples"), "0 samples");
}

}  // namespace
}  // namespace driftwarden::rounding_test
