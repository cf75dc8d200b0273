// SPDX-License-Identifier: MIT
#include "correction/due.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <optional>

namespace driftwarden::due_test {
namespace {

constexpr Day tenth_of_january_2026 = 20463;
constexpr Day tenth_of_january_2027 = 20828;

Certificate certificate(Day calibrated, Day due) {
  Certificate made;
  made.calibrated = calibrated;
  made.due = due;
  return made;
}

Instrument instrument(std::optional<double> interval_d) {
  Instrument made;
  made.interval_d = interval_d;
  return made;
}

TEST(DueDay, IsTheCertificatesOwn) {
  EXPECT_EQ(due_day(certificate(100, 250), instrument({})), 250);
  EXPECT_EQ(due_day(certificate(100, 250), instrument(365)), 250);
  EXPECT_EQ(due_day(certificate(no_day, 250), instrument({})), 250);
}

TEST(DueDay, IsCalibrationPlusIntervalWhereTheCertificateIsSilent) {
  EXPECT_EQ(due_day(certificate(tenth_of_january_2026, no_day), instrument(365)), tenth_of_january_2027);
}

TEST(DueDay, OfABrokenIntervalIsTheEarlierDay) {
  EXPECT_EQ(due_day(certificate(100, no_day), instrument(182.6)), 282);
  EXPECT_EQ(due_day(certificate(-100, no_day), instrument(10.9)), -90);
}

TEST(DueDay, IsNoneWhereNobodySaysSo) {
  EXPECT_EQ(due_day(certificate(100, no_day), instrument({})), no_day);
  EXPECT_EQ(due_day(certificate(no_day, no_day), instrument(365)), no_day);
}

TEST(DueDay, IsNonePastTheEndOfTheCalendar) {
  EXPECT_EQ(due_day(certificate(100, no_day), instrument(1e12)), no_day);
  EXPECT_EQ(due_day(certificate(100, no_day), instrument(-1e12)), no_day);
  EXPECT_EQ(due_day(certificate(100, no_day), instrument(std::nan(""))), no_day);
}

TEST(DueDay, MayBeTheLastOfTheCalendar) {
  constexpr Day last = std::numeric_limits<Day>::max();
  EXPECT_EQ(due_day(certificate(0, no_day), instrument(last)), last);
  EXPECT_EQ(due_day(certificate(1, no_day), instrument(last)), no_day);
}

}  // namespace
}  // namespace driftwarden::due_test
