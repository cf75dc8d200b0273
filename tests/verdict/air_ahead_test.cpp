// SPDX-License-Identifier: MIT
#include "verdict/air_ahead.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::air_ahead_test {
namespace {

// input: conditions of the readings.

constexpr Day a_later_day = 20720;  // 2026-09-24

BookText read_in_air() {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n"
      "2026-09-21T16:10,post,S1,V1,1.950,13.1,84.7\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,21.9,99.2\n"
      "2026-09-21T16:11,post,S1,V1,1.950,,\n";
  return text;
}

TEST(AirAhead, IsThatOfTheNewestReadingThatHasItInWholeSteps) {
  JudgedBook book(read_in_air());
  const AirExpected expected = air_expected(book.screening(), {}, a_later_day);
  EXPECT_NEAR(expected.air.temperature_k, 288.15, 1e-9);
  EXPECT_EQ(expected.air.pressure_kpa, 85);
  EXPECT_TRUE(is_missing(expected.air.humidity));
  EXPECT_EQ(expected.temperature_from, "as at the last reading, 2026-09-21");
  EXPECT_EQ(expected.humidity_from, "");
}

TEST(AirAhead, HeedsTheDayAndLeavesOutWhatDoesNotCount) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],void\n"
      "2026-09-20T07:30,pre,S1,V1,2.000,5,\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,10,yes\n"
      "2026-09-22T07:30,post,S1,V1,2.000,20,\n";
  JudgedBook book(text);
  EXPECT_NEAR(air_expected(book.screening(), {}, 20717).air.temperature_k, 278.15, 1e-9);  // 2026-09-21
  EXPECT_NEAR(air_expected(book.screening(), {}, 20718).air.temperature_k, 293.15, 1e-9);
  EXPECT_EQ(calibrator_used_last(book.screening().book(), 20700), no_row);
  EXPECT_NE(calibrator_used_last(book.screening().book(), 20717), no_row);
}

TEST(AirAhead, IsAsSaidToTheDigit) {
  JudgedBook book(read_in_air());
  SaidAir said;
  said.temperature_k = 285.35;
  said.humidity = 0.4;
  const AirExpected expected = air_expected(book.screening(), said, a_later_day);
  EXPECT_EQ(expected.air.temperature_k, 285.35);
  EXPECT_EQ(expected.air.humidity, 0.4);
  EXPECT_EQ(expected.air.pressure_kpa, 85);
  EXPECT_EQ(expected.temperature_from, "as given");
}

TEST(AirAhead, TakesThePressureOfTheSiteWhereNoneWasRead) {
  BookText text;
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  JudgedBook book(text);
  const AirExpected expected = air_expected(book.screening(), {}, a_later_day);
  EXPECT_EQ(expected.air.pressure_kpa, 85);  // of 84.56
  EXPECT_EQ(expected.pressure_from, "at the site's altitude");
}

TEST(AirAhead, IsMissingWhereNobodySays) {
  JudgedBook book{BookText()};
  const AirExpected expected = air_expected(book.screening(), {}, a_later_day);
  EXPECT_TRUE(is_missing(expected.air.temperature_k));
  EXPECT_TRUE(is_missing(expected.air.pressure_kpa));
}

TEST(AirAhead, LiesAroundItsCentre) {
  EXPECT_EQ(around(10, 5, 2), (std::vector<double>{0, 5, 10, 15, 20}));
  EXPECT_EQ(around(10, 5, 0), std::vector<double>{10});
}

}  // namespace
}  // namespace driftwarden::air_ahead_test
