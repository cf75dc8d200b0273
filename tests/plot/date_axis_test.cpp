// SPDX-License-Identifier: MIT
#include "plot/date_axis.hpp"

#include <gtest/gtest.h>

#include "record/moment.hpp"

namespace driftwarden::date_axis_test {
namespace {

std::vector<std::string> labels(CalendarDate from, CalendarDate to, std::size_t most) {
  std::vector<std::string> texts;
  for (const DateTic& tic : date_tics(day_from(from), day_from(to), most)) texts.push_back(tic.label);
  return texts;
}

using Texts = std::vector<std::string>;

TEST(DateTics, AreDaysOnAShortAxis) {
  EXPECT_EQ(labels({2026, 9, 21}, {2026, 9, 23}, 6), (Texts{"2026-09-21", "2026-09-22", "2026-09-23"}));
}

TEST(DateTics, AreMondaysOnAnAxisOfWeeks) {
  EXPECT_EQ(labels({2026, 9, 22}, {2026, 10, 14}, 6), (Texts{"2026-09-28", "2026-10-05", "2026-10-12"}));
}

TEST(DateTics, AreFirstsOfMonthsThenOfYears) {
  EXPECT_EQ(labels({2026, 1, 5}, {2026, 6, 30}, 6), (Texts{"2026-02", "2026-03", "2026-04", "2026-05", "2026-06"}));
  EXPECT_EQ(labels({2020, 3, 1}, {2026, 6, 30}, 7), (Texts{"2021", "2022", "2023", "2024", "2025", "2026"}));
}

TEST(DateTics, AreNeverMoreThanWantedAndNeverNone) {
  for (const int days : {2, 3, 10, 29, 90, 400, 3000, 20000}) {
    for (std::size_t most = 3; most <= 9; ++most) {
      const auto tics = date_tics(20000.3, 20000.3 + days, most);
      EXPECT_LE(tics.size(), most) << days << " days";
      EXPECT_GE(tics.size(), 1U) << days << " days";
      for (const DateTic& tic : tics) {
        EXPECT_GE(tic.day, 20000.3);
        EXPECT_LE(tic.day, 20000.3 + days);
      }
    }
  }
}

TEST(DateTics, OfAnAxisInsideADayAreNone) { EXPECT_TRUE(date_tics(20000.2, 20000.8, 6).empty()); }

TEST(DateTics, BeforeNineteenSeventyAreMondaysToo) {
  EXPECT_EQ(labels({1969, 12, 20}, {1970, 1, 6}, 4).front(), "1969-12-22");
}

}  // namespace
}  // namespace driftwarden::date_axis_test
