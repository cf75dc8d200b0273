// SPDX-License-Identifier: MIT
#include "correction/calibrator_drift.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace driftwarden::calibrator_drift_test {
namespace {

// input: a certificate of instrument 0 at 1 and 2 L/min, with errors as found and as left in percent.
Certificate certificate(Day calibrated, double found_percent, double left_percent) {
  Certificate made;
  made.instrument = 0;
  made.calibrated = calibrated;
  for (const double flow : {1.0, 2.0}) {
    CertificatePoint point;
    point.reference_l_min = flow;
    point.as_found_l_min = flow * (1 + found_percent / 100);
    point.as_left_l_min = flow * (1 + left_percent / 100);
    made.points.push_back(point);
  }
  return made;
}

std::vector<CalibratorDrift> drifts_of(const std::vector<Certificate>& certificates) {
  return calibrator_drifts(certificates, CertificateHistory(certificates, 1), 1);
}

// derived: the example of the formula, the ratio of two roots, 0.2 % √5 / (100 d √5).
TEST(CalibratorDrift, IsTheRootOfTheSquaresOfWhatWasFoundOverThatOfTheDays) {
  const auto drifts = drifts_of({certificate(0, 5, 0), certificate(100, 0.2, 0), certificate(300, 0.4, 0)});
  EXPECT_NEAR(drifts[2].per_day, 0.00002, 1e-12);
  EXPECT_EQ(drifts[2].intervals, 2U);
  EXPECT_NEAR(drifts[2].after_days(50), 0.001, 1e-10);
}

TEST(CalibratorDrift, OfTheFirstCertificateIsNotKnown) {
  const auto drifts = drifts_of({certificate(0, 5, 0), certificate(100, 0.2, 0)});
  EXPECT_TRUE(std::isnan(drifts[0].per_day));
  EXPECT_EQ(drifts[0].intervals, 0U);
}

TEST(CalibratorDrift, KnowsNothingOfWhatIsFoundLater) {
  const auto before = drifts_of({certificate(0, 0, 0), certificate(100, 0.2, 0)});
  const auto after = drifts_of({certificate(0, 0, 0), certificate(100, 0.2, 0), certificate(200, 9, 0)});
  EXPECT_EQ(before[1].per_day, after[1].per_day);
}

// derived: left 0.3 % high and found 0.5 % high: it moved by 0.2 %.
TEST(CalibratorDrift, IsFromAsLeftToAsFound) {
  const auto drifts = drifts_of({certificate(0, 0, 0.3), certificate(100, 0.5, 0)});
  EXPECT_NEAR(drifts[1].per_day, 0.00002, 1e-6);
}

// derived: a change that always has one sign is known and not corrected for: it counts whole (GUM F.2.4.5).
TEST(CalibratorDrift, CountsASteadyChangeWhole) {
  const auto drifts = drifts_of({certificate(0, 0, 0), certificate(100, 0.2, 0), certificate(200, 0.2, 0)});
  EXPECT_NEAR(drifts[2].after_days(100), 0.002, 1e-10);
}

TEST(CalibratorDrift, PassesOverACertificateThatSaysNothingAsFoundOrIsOfTheSameDay) {
  Certificate silent = certificate(50, 0, 0);
  for (CertificatePoint& point : silent.points) point.as_found_l_min.reset();
  const auto drifts = drifts_of({certificate(0, 0, 0), silent, certificate(50, 7, 0)});
  EXPECT_TRUE(std::isnan(drifts[1].per_day));
  EXPECT_TRUE(std::isnan(drifts[2].per_day));
}

TEST(CalibratorDrift, IsKnownFromOneDayOn) {
  const auto drifts = drifts_of({certificate(0, 0, 0), certificate(1, 0.2, 0)});
  EXPECT_EQ(drifts[1].intervals, 1U);
  EXPECT_NEAR(drifts[1].per_day, 0.2 / 100, 1e-12);
}

}  // namespace
}  // namespace driftwarden::calibrator_drift_test
