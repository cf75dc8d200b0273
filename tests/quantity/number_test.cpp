// SPDX-License-Identifier: MIT
#include "quantity/number.hpp"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>
#include <string>

namespace driftwarden::number_test {
namespace {

// echo: the figure that the text says.

constexpr double infinity = std::numeric_limits<double>::infinity();

std::uint64_t bits_of(double value) { return std::bit_cast<std::uint64_t>(value); }

// A decimal of 1 to 15 digits, with the point anywhere or nowhere, with a sign or none.
std::string generated_decimal(std::mt19937_64& random) {
  const std::size_t size = 1 + random() % 15;
  std::string text;
  for (std::size_t i = 0; i < size; ++i) text += static_cast<char>('0' + random() % 10);
  const std::size_t point = random() % (size + 2);
  if (point <= size) text.insert(point, ".");
  const std::size_t sign = random() % 4;
  return sign == 0 ? '-' + text : sign == 1 ? '+' + text : text;
}

TEST(Number, IsReadFromDecimals) {
  EXPECT_EQ(number_from("2.041"), 2.041);
  EXPECT_EQ(number_from("1013"), 1013.0);
  EXPECT_EQ(number_from("-40"), -40.0);
  EXPECT_EQ(number_from("+1.5"), 1.5);
  EXPECT_EQ(number_from(".5"), 0.5);
  EXPECT_EQ(number_from("5."), 5.0);
  EXPECT_EQ(number_from("007"), 7.0);
  EXPECT_EQ(number_from("0"), 0.0);
}

TEST(Number, IsReadFromExponentsAndLongDecimals) {
  EXPECT_EQ(number_from("1e3"), 1000.0);
  EXPECT_EQ(number_from("-1.5E-3"), -0.0015);
  EXPECT_EQ(number_from("+1e3"), 1000.0);
  EXPECT_EQ(number_from("0.1000000000000000055511151231257827021181583404541015625"), 0.1);
  EXPECT_EQ(number_from(std::string(400, '0') + "7"), 7.0);
  EXPECT_EQ(number_from("0." + std::string(400, '0') + "7"), std::nullopt) << "too small for a double";
}

TEST(Number, RefusesEverythingElse) {
  for (const char* text :
       {"",         " ",   "+",   "-",      ".",     "+.",     "-.",  "1,5",  "1 000", " 1",    "1 ",  "++1",  "+-1",
        "-+1",      "--1", "1-",  "1.2.3",  "..5",   "1e",     "1e+", "e5",   "0x10",  "0x1p3", "inf", "-inf", "+inf",
        "infinity", "nan", "NAN", "nan(1)", "1e400", "-1e400", "1f",  "1.0L", "½",     "１",    "−5",  "1'000"}) {
    EXPECT_EQ(number_from(text), std::nullopt) << text;
  }
}

TEST(Number, RefusesAnEmbeddedZeroByte) { EXPECT_EQ(number_from(std::string_view("1\0", 2)), std::nullopt); }

TEST(Number, IsTheSameToTheBitOnTheQuickPathAndTheSlow) {
  std::mt19937_64 random(20'000);  // a fixed seed: every run sees the same decimals
  for (int i = 0; i < 100'000; ++i) {
    const std::string text = generated_decimal(random);
    const std::optional<double> quick = number_from_few_digits(text);
    const std::optional<double> slow = number_from_any_length(text);
    ASSERT_TRUE(quick && slow) << text;
    ASSERT_EQ(bits_of(*quick), bits_of(*slow)) << text;
  }
}

TEST(Number, KeepsTheSignOfZeroOnBothPaths) {
  EXPECT_EQ(bits_of(number_from_few_digits("-0.0").value()), bits_of(-0.0));
  EXPECT_EQ(bits_of(number_from_any_length("-0.0").value()), bits_of(-0.0));
}

TEST(Number, LeavesTheQuickPathBeyondFifteenDigits) {
  EXPECT_EQ(number_from_few_digits("0.12345678901234"), 0.12345678901234);
  EXPECT_EQ(number_from_few_digits("0.123456789012345"), std::nullopt);
  EXPECT_EQ(number_from_few_digits("1234567890123456"), std::nullopt);
  EXPECT_EQ(number_from("0.123456789012345"), 0.123456789012345);
  EXPECT_EQ(number_from("9007199254740993"), 9007199254740992.0) << "2^53 + 1 lies half way: to even";
}

TEST(Shortest, ReadsBackToTheSameDouble) {
  std::mt19937_64 random(20'001);
  for (int i = 0; i < 100'000; ++i) {
    const auto value = std::bit_cast<double>(random());
    if (!std::isfinite(value) || std::fabs(value) < std::numeric_limits<double>::min()) continue;
    ASSERT_EQ(number_from(shortest(value)), value) << shortest(value);
  }
}

TEST(Shortest, HasNoMoreDigitsThanNeeded) {
  EXPECT_EQ(shortest(0.1), "0.1");
  EXPECT_EQ(shortest(0.1 + 0.2), "0.30000000000000004");
  EXPECT_EQ(shortest(2.041), "2.041");
  EXPECT_EQ(shortest(1.0 / 3), "0.3333333333333333");
}

TEST(Shortest, WritesWholeNumbersWithoutAPoint) {
  EXPECT_EQ(shortest(5), "5");
  EXPECT_EQ(shortest(-1013), "-1013");
  EXPECT_EQ(shortest(100'000), "100000");
}

TEST(Shortest, WritesZeroWithoutASign) {
  EXPECT_EQ(shortest(0.0), "0");
  EXPECT_EQ(shortest(-0.0), "0");
}

TEST(Shortest, UsesAnExponentOnlyForTheVeryLargeAndTheVerySmall) {
  EXPECT_EQ(shortest(0.000001), "0.000001");
  EXPECT_EQ(shortest(0.0000001), "1e-07");
  EXPECT_EQ(shortest(1e15), "1000000000000000");
  EXPECT_EQ(shortest(1e16), "1e+16");
}

TEST(Shortest, IsEmptyForNotANumber) {
  EXPECT_EQ(shortest(std::numeric_limits<double>::quiet_NaN()), "");
  EXPECT_EQ(shortest(infinity), "inf");
  EXPECT_EQ(shortest(-infinity), "-inf");
}

}  // namespace
TEST(NumberFromPaddedText, AgreesWithTheSlowWayForEveryShortText) {
  // All texts of up to eight characters that the fast way could mistake: digits, points, signs, letters, blanks and
  // bytes just beside the digits.
  constexpr std::string_view characters = "0123456789.-+eE ,/:;xo@\xFF";
  std::uint64_t state = 20261125;
  for (int i = 0; i < 300000; ++i) {
    char text[24] = {};
    state = state * 6364136223846793005U + 1442695040888963407U;
    std::uint64_t bits = state >> 8U;
    const auto size = static_cast<std::size_t>(bits % 10);
    bits /= 10;
    // Mostly digits and points, so that many texts are numbers.
    for (std::size_t k = 0; k < size; ++k) {
      state = state * 6364136223846793005U + 1442695040888963407U;
      const std::uint64_t choice = state >> 33U;
      text[k] = characters[choice % (choice % 7 == 0 ? characters.size() : 11)];
    }
    for (std::size_t k = size; k < sizeof text; ++k) text[k] = "9,.\n"[k % 4];
    const std::string_view written(text, size);
    const std::optional<double> slow = number_from(written);
    const std::optional<double> fast = number_from_padded(written);
    ASSERT_EQ(slow.has_value(), fast.has_value()) << written;
    ASSERT_EQ(slow.value_or(-1), fast.value_or(-1)) << written;
  }
}

}  // namespace driftwarden::number_test
