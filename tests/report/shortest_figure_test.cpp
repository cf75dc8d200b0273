// SPDX-License-Identifier: MIT
#include "report/shortest_figure.hpp"

#include <gtest/gtest.h>

#include <array>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>

#include "quantity/number.hpp"

namespace driftwarden::shortest_figure_test {
namespace {

// input: figures whose text has to read back to the same double.

std::string figure(double value) {
  std::string out;
  append_figure(out, value);
  return out;
}

std::string by_the_standard_library(double value) {
  std::array<char, 64> text;
  return {text.data(), std::to_chars(text.data(), text.data() + text.size(), value).ptr};
}

TEST(FigureText, IsTheShortestTextThatReadsBackToTheSameDouble) {
  EXPECT_EQ(figure(480), "480");
  EXPECT_EQ(figure(1.975), "1.975");
  EXPECT_EQ(figure(0.1 + 0.2), "0.30000000000000004");
  for (const double value : {1.0 / 3, -5.000000000000004, 948.1329, 1e-300, 4.9e-324, 1.7976931348623157e308}) {
    EXPECT_EQ(number_from(figure(value)), value);
  }
}

TEST(FigureText, IsNothingWhereThereIsNone) {
  EXPECT_EQ(figure(std::numeric_limits<double>::quiet_NaN()), "");
  EXPECT_EQ(figure(std::numeric_limits<double>::infinity()), "");  // a drift from a flow of 0 is no number
  EXPECT_EQ(figure(-std::numeric_limits<double>::infinity()), "");
}

// std::to_chars is another implementation of the shortest digits (Ryu; ours are fmt's, by Dragonbox).
TEST(FigureText, IsWhatTheStandardLibraryWrites) {
  std::uint64_t state = 20261126;
  for (int i = 0; i < 200000; ++i) {
    state = state * 6364136223846793005U + 1442695040888963407U;
    const double any = std::bit_cast<double>(state);
    // Bits of any kind, and figures of the sizes that results have, with many digits and with few.
    const double usual = std::ldexp(static_cast<double>(state >> 12), -50 + static_cast<int>(state % 24));
    const double few = std::round(usual * 1000) / 1000;
    for (const double value : {any, usual, -usual, few, 1 / usual}) {
      if (!std::isfinite(value)) continue;
      ASSERT_EQ(figure(value), by_the_standard_library(value));
    }
  }
}

TEST(FigureText, IsWhatTheStandardLibraryWritesOfWholeNumbers) {
  for (int whole = -100100; whole <= 100100; ++whole) {
    ASSERT_EQ(figure(whole), by_the_standard_library(whole));
  }
  EXPECT_EQ(figure(-0.0), by_the_standard_library(-0.0));
}

TEST(FigureText, IsRightAtTheEndsOfTheUsualRange) {
  for (const double value : {0.001, 0.0010000000000000002, 0.00099999999999999998, 999999999999999.9, 1e15, 1e15 + 0.5,
                             0.01, 0.1, 1.0, 1.5, 10.0, 100000.0, 123456.0, 0.0, -0.0}) {
    EXPECT_EQ(figure(value), by_the_standard_library(value));
  }
}

}  // namespace
}  // namespace driftwarden::shortest_figure_test
