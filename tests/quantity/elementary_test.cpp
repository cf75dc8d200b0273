// SPDX-License-Identifier: MIT
#include "quantity/elementary.hpp"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <limits>
#include <numbers>
#include <string>
#include <utility>

#include "support/hexadecimal_values.hpp"

namespace driftwarden::elementary_test {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double no_number = std::numeric_limits<double>::quiet_NaN();

double value_of(const std::string& function, double x, double y) {
  constexpr std::pair<const char*, double (*)(double)> of_one[] = {
      {"exp", elementary::exp},     {"expm1", elementary::expm1}, {"log", elementary::log},
      {"log1p", elementary::log1p}, {"log10", elementary::log10}, {"sin", elementary::sin},
      {"cos", elementary::cos},     {"asin", elementary::asin},   {"acos", elementary::acos}};
  for (const auto& [name, of] : of_one) {
    if (function == name) return of(x);
  }
  return function == "pow" ? elementary::pow(x, y) : elementary::hypot(x, y);
}

// own input: computed with mpmath 1.2.1 by tests/support/elementary_values.py, rounded once.
TEST(Elementary, IsTheDoubleNearestToTheTrueValue) {
  const char* const elsewhere = std::getenv("DRIFTWARDEN_ELEMENTARY_VALUES");
  const auto values =
      test::hexadecimal_values(elsewhere ? elsewhere : test::value_file("quantity/data/elementary.txt"));
  ASSERT_GE(values.size(), 11U * 60);
  for (const auto& [function, x, value] : values) {
    const double found = value_of(function, x[0], x[1]);
    EXPECT_EQ(std::bit_cast<std::uint64_t>(found), std::bit_cast<std::uint64_t>(value))
        << function << "(" << x[0] << ", " << x[1] << ") is " << found << ", not " << value;
  }
}

TEST(Elementary, ExponentialsEndWhereDoublesDo) {
  EXPECT_EQ(elementary::exp(709.79), infinite);
  EXPECT_EQ(elementary::exp(infinite), infinite);
  EXPECT_EQ(elementary::exp(-745.2), 0);
  EXPECT_EQ(elementary::exp(-infinite), 0);
  EXPECT_TRUE(std::isnan(elementary::exp(no_number)));
  EXPECT_EQ(elementary::expm1(infinite), infinite);
  EXPECT_EQ(elementary::expm1(-infinite), -1);
  EXPECT_TRUE(std::signbit(elementary::expm1(-0.0)));
}

TEST(Elementary, LogarithmsAreThoseOfNumbersAboveZero) {
  EXPECT_EQ(elementary::log(0), -infinite);
  EXPECT_EQ(elementary::log(infinite), infinite);
  EXPECT_TRUE(std::isnan(elementary::log(-1)));
  EXPECT_TRUE(std::isnan(elementary::log(no_number)));
  EXPECT_EQ(elementary::log1p(-1), -infinite);
  EXPECT_TRUE(std::isnan(elementary::log1p(-2)));
  EXPECT_TRUE(std::signbit(elementary::log1p(-0.0)));
  EXPECT_EQ(elementary::log10(0), -infinite);
}

// printed: ISO/IEC 9899:2011, F.10.4.4 (powers) and F.10.4.3 (legs of a triangle).
TEST(Elementary, PowersHaveTheSpecialValuesOfTheStandard) {
  EXPECT_EQ(elementary::pow(no_number, 0), 1);
  EXPECT_EQ(elementary::pow(1, no_number), 1);
  EXPECT_EQ(elementary::pow(-2, 3), -8);
  EXPECT_EQ(elementary::pow(-2, -2), 0.25);
  EXPECT_TRUE(std::isnan(elementary::pow(-2, 0.5)));
  EXPECT_EQ(elementary::pow(0, -1), infinite);
  EXPECT_EQ(elementary::pow(-0.0, -1), -infinite);
  EXPECT_EQ(elementary::pow(-0.0, -2), infinite);
  EXPECT_EQ(elementary::pow(-1, infinite), 1);
  EXPECT_EQ(elementary::pow(0.5, infinite), 0);
  EXPECT_EQ(elementary::pow(0.5, -infinite), infinite);
  EXPECT_EQ(elementary::pow(-infinite, 3), -infinite);
  EXPECT_EQ(elementary::pow(infinite, -0.5), 0);
  EXPECT_EQ(elementary::pow(10, 308.3), infinite);
  EXPECT_EQ(elementary::pow(10, -324), 0);
  EXPECT_EQ(elementary::hypot(infinite, no_number), infinite);
  EXPECT_TRUE(std::isnan(elementary::hypot(1, no_number)));
  EXPECT_EQ(elementary::hypot(0, -0.0), 0);
}

TEST(Elementary, TenToAWholePowerIsTheDoubleThatIsWritten) {
  for (int power = -300; power <= 300; ++power) {
    EXPECT_EQ(elementary::pow(10, power), std::strtod(("1e" + std::to_string(power)).c_str(), nullptr)) << power;
  }
}

TEST(Elementary, AnglesTooLargeAreRefused) {
  EXPECT_TRUE(std::isnan(elementary::sin(1e6)));
  EXPECT_TRUE(std::isnan(elementary::cos(infinite)));
  EXPECT_TRUE(std::isnan(elementary::asin(1.5)));
  EXPECT_TRUE(std::isnan(elementary::acos(-1.5)));
  EXPECT_EQ(elementary::acos(-1), std::numbers::pi);
  EXPECT_TRUE(std::signbit(elementary::asin(-0.0)));
}

}  // namespace
}  // namespace driftwarden::elementary_test
