// SPDX-License-Identifier: MIT
#include "history/certificate_series.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::certificate_series_test {
namespace {

constexpr Day in_october = 20742;
constexpr Row v1 = 2;

// V1: found 1 % high at 2 L/min, adjusted; a year later 0.5 % high at 2 and 1 % low at 1 L/min, left so.
BookText two_calibrations(const std::string& found = "2.02", const std::string& left = "2.00") {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as found [L/min],as left [L/min],"
      "expanded uncertainty [%],coverage factor,tolerance [%]\n"
      "A,V1,2025-01-06,2026-01-06,1,1,1,1,0.6,2,2\n"
      "A,V1,2025-01-06,2026-01-06,2,2," +
      found + "," + left +
      ",0.6,2,2\n"
      "B,V1,2026-01-06,2027-01-06,1,1,0.99,,0.6,2,2\n"
      "B,V1,2026-01-06,2027-01-06,2,2,2.01,,0.6,2,2\n";
  return text;
}

const Series& named(const std::vector<Series>& all, std::string_view name) {
  for (const Series& series : all) {
    if (series.name == name) return series;
  }
  throw std::runtime_error("no series " + std::string(name));
}

TEST(CertificateSeries, TellTheWorstPointWithItsSign) {
  const JudgedBook book(two_calibrations());
  const auto all = certificate_series(book.screening(), v1, in_october, {});
  const Series& worst = named(all, "as-found-error");
  ASSERT_EQ(worst.points.size(), 2U);
  EXPECT_NEAR(worst.points[0].value, 1.0, 1e-9);
  EXPECT_NEAR(worst.points[1].value, -1.0, 1e-9);
  EXPECT_EQ(worst.points[1].from, "B");
  EXPECT_NEAR(worst.points[0].expanded_uncertainty, 0.6, 1e-9);
}

TEST(CertificateSeries, TellEachPointAsFoundAndAsLeft) {
  const JudgedBook book(two_calibrations());
  const auto all = certificate_series(book.screening(), v1, in_october, {});
  ASSERT_EQ(all.size(), 5U);
  EXPECT_NEAR(named(all, "as-found-error at 2 L/min").points[0].value, 1.0, 1e-9);
  EXPECT_NEAR(named(all, "as-left-error at 2 L/min").points[0].value, 0.0, 1e-9);
  EXPECT_NEAR(named(all, "as-left-error at 2 L/min").points[1].value, 0.5, 1e-9);  // not adjusted: left as found
}

TEST(CertificateSeries, MeasureTheStepFromWhereItWasLeft) {
  const JudgedBook book(two_calibrations());
  const Series worst = named(certificate_series(book.screening(), v1, in_october, {}), "as-found-error");
  ASSERT_EQ(worst.steps.size(), 1U);
  EXPECT_EQ(worst.steps[0].days, 365);
  EXPECT_NEAR(worst.steps[0].change, -1.0, 1e-9);
  EXPECT_NEAR(worst.last_left, -1.0, 1e-9);
}

TEST(CertificateSeries, HaveNoStepsWhereNothingWasEverAdjusted) {
  const JudgedBook book(two_calibrations("2.00", ""));
  EXPECT_TRUE(named(certificate_series(book.screening(), v1, in_october, {}), "as-found-error").steps.empty());
}

// Invented: adjusted to 0 every year; a new piston between the second and the third. Its last step is of the new one.
TEST(CertificateSeries, MeasureNoStepAcrossAService) {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left [L/min]\n"
      "A,V1,2023-01-06,2,2,2.01,2\nB,V1,2024-01-06,2,2,2.01,2\nC,V1,2025-01-06,2,2,2.06,2\n"
      "D,V1,2026-01-06,2,2,2.02,2\n";
  const JudgedBook book(text);
  const auto steps_with = [&](const std::vector<PhaseStart>& services) {
    return named(certificate_series(book.screening(), v1, in_october, services), "as-found-error").steps;
  };
  EXPECT_EQ(steps_with({}).size(), 3U);
  const Moment in_between = static_cast<Moment>(day_from({2024, 7, 1})) * 86400;
  const auto steps = steps_with({{in_between, "new piston"}});
  ASSERT_EQ(steps.size(), 1U);
  EXPECT_NEAR(steps[0].change, 1.0, 1e-9);
  // On the day of a calibration: after what was found, before what was left.
  const Moment same_day = static_cast<Moment>(day_from({2025, 1, 6})) * 86400 + 1;
  EXPECT_EQ(steps_with({{same_day, "new piston"}}).size(), 1U);
}

// B was left as it was found, and then got a new piston; it says nothing of where that began.
TEST(CertificateSeries, MeasureNoStepFromBeforeAServiceOfTheSameDay) {
  BookText text = two_calibrations();
  text.certificates += "C,V1,2026-07-06,2027-07-06,2,2,2.05,2,0.6,2,2\n";
  const JudgedBook book(text);
  const Moment same_day = static_cast<Moment>(day_from({2026, 1, 6})) * 86400 + 1;
  const auto all = certificate_series(book.screening(), v1, in_october, {{same_day, "new piston"}});
  EXPECT_TRUE(named(all, "as-found-error").steps.empty());
}

TEST(CertificateSeries, KeepTheirStepsWhereAServiceFollowedTheLast) {
  const JudgedBook book(two_calibrations());
  const Moment later = static_cast<Moment>(day_from({2026, 2, 1})) * 86400;
  const auto all = certificate_series(book.screening(), v1, in_october, {{later, "new piston"}});
  EXPECT_EQ(named(all, "as-found-error").steps.size(), 1U);
}

TEST(CertificateSeries, BeginAPhaseAfterAnAdjustmentOutOfTolerance) {
  const JudgedBook inside(two_calibrations("2.04", "2.00"));  // 2 %, on the limit
  EXPECT_EQ(named(certificate_series(inside.screening(), v1, in_october, {}), "as-found-error").phases.size(), 1U);
  const JudgedBook beyond(two_calibrations("2.05", "2.00"));
  const Series worst = named(certificate_series(beyond.screening(), v1, in_october, {}), "as-found-error");
  ASSERT_EQ(worst.phases.size(), 2U);
  EXPECT_EQ(worst.phases[1].reason, "adjusted A");
}

TEST(CertificateSeries, TakeTheToleranceOfTheNewestCertificateElseOfARule) {
  const RulesText rules{{{Subject::calibrator, "as-found.error", "within", {"3 %"}, Otherwise::note}}};
  const JudgedBook stated(two_calibrations(), rules);
  EXPECT_NEAR(named(certificate_series(stated.screening(), v1, in_october, {}), "as-found-error").tolerance.upper, 2,
              1e-9);
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found "
      "[L/min]\nC,V1,2026-01-05,2,2,2.01\n";
  const JudgedBook by_rule(text, rules);
  const Tolerance tolerance =
      named(certificate_series(by_rule.screening(), v1, in_october, {}), "as-found-error").tolerance;
  EXPECT_NEAR(tolerance.lower, -3, 1e-9);
  EXPECT_EQ(tolerance.source, "own/as-found.error");
}

TEST(CertificateSeries, EndWithTheDayAskedFor) {
  const JudgedBook book(two_calibrations());
  EXPECT_EQ(certificates_of(book.book(), v1, day_from({2025, 12, 31})).size(), 1U);
  EXPECT_TRUE(certificate_series(book.screening(), v1, day_from({2024, 12, 31}), {}).empty());
}

TEST(DueSeries, CountsTheDaysLeft) {
  const JudgedBook book(two_calibrations());
  const auto due = due_series(book.screening(), v1, day_from({2027, 1, 16}));
  ASSERT_EQ(due.size(), 1U);
  EXPECT_EQ(due[0].points[0].value, -10);
  EXPECT_FALSE(due[0].is_charted);
}

TEST(DueSeries, IsEmptyWhereNothingSaysWhenItIsDue) {
  const JudgedBook book({});
  EXPECT_TRUE(due_series(book.screening(), v1, in_october).empty());
}

// A thermometer: 0.3 K high and adjusted; a year later 0.2 K low at 0 °C, left so. Tolerance 0.5 K. Invented data.
TEST(CertificateSeries, OfAThermometerAreInKelvin) {
  BookText text;
  text.instruments += "T1,thermometer,\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [°C],reference [°C],as found [°C],as left [°C],expanded uncertainty "
      "[K],coverage factor,tolerance [K]\n"
      "A,T1,2025-01-06,0,0,0.1,0,0.1,2,0.5\nA,T1,2025-01-06,20,20,20.3,20,0.1,2,0.5\n"
      "B,T1,2026-01-06,0,0,-0.2,,0.1,2,0.5\nB,T1,2026-01-06,20,20,20.1,,0.1,2,0.5\n";
  const JudgedBook book(text);
  const auto all = certificate_series(book.screening(), 4, in_october, {});
  const Series& worst = named(all, "as-found-error");
  EXPECT_EQ(worst.unit, "K");
  ASSERT_EQ(worst.points.size(), 2U);
  EXPECT_NEAR(worst.points[0].value, 0.3, 1e-9);
  EXPECT_NEAR(worst.points[1].value, -0.2, 1e-9);
  EXPECT_NEAR(worst.points[0].expanded_uncertainty, 0.1, 1e-9);
  EXPECT_NEAR(worst.tolerance.upper, 0.5, 1e-12);
  EXPECT_NEAR(named(all, "as-found-error at 20 °C").points[1].value, 0.1, 1e-9);
  EXPECT_NEAR(named(all, "as-left-error at 0 °C").points[0].value, 0, 1e-9);
  EXPECT_EQ(is_found_in_tolerance(book.book().certificates[0]), true);
}

TEST(CertificateSeries, OfABarometerAreInKilopascal) {
  BookText text;
  text.instruments += "B1,barometer,\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [hPa],reference [hPa],as found [hPa],tolerance [hPa]\n"
      "A,B1,2025-01-06,850,850,854,3\n";
  const JudgedBook book(text);
  const auto all = certificate_series(book.screening(), 4, in_october, {});
  EXPECT_EQ(named(all, "as-found-error at 85 kPa").unit, "kPa");
  EXPECT_NEAR(named(all, "as-found-error").points[0].value, 0.4, 1e-9);
  EXPECT_EQ(is_found_in_tolerance(book.book().certificates[0]), false);
}

}  // namespace
}  // namespace driftwarden::certificate_series_test
