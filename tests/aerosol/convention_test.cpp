// SPDX-License-Identifier: MIT
#include "aerosol/convention.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

#include "statistics/quadrature.hpp"

namespace driftwarden::convention_test {
namespace {

constexpr auto inhalable = Convention::inhalable;
constexpr auto thoracic = Convention::thoracic;
constexpr auto respirable = Convention::respirable;
constexpr auto high_risk = Convention::high_risk_respirable;

struct SizeRow {
  double d_um;
  double inhalable_percent, thoracic_percent, respirable_percent;
};

// own input: the formula of ISO 7708:1995 and EN 481:1993, computed with SciPy 1.10 by
// tests/support/computed_aerosols.py.
constexpr SizeRow by_size[] = {
    {1, 97.088227, 97.088227, 97.070801},      {2, 94.346022, 94.345362, 91.373043},
    {3, 91.763511, 91.725608, 73.854762},      {4, 89.331393, 88.954912, 49.974467},
    {5, 87.040911, 85.423881, 29.966093},      {6, 84.883816, 80.547227, 16.766997},
    {7, 82.852341, 74.162511, 9.0494928},      {8, 80.93917, 66.571286, 4.8062341},
    {9, 79.137413, 58.331136, 2.5420604},      {10, 77.440582, 50.026476, 1.3486178},
    {11, 75.842567, 42.127703, 0.72076507},    {12, 74.337613, 34.943061, 0.38906225},
    {14, 71.585526, 23.225586, 0.11740992},    {16, 69.144644, 14.958366, 0.037246928},
    {18, 66.979776, 9.4548742, 0.012420237},   {20, 65.059711, 5.9167024, 0.0043439175},
    {25, 61.156508, 1.8159715, 0.00037960544}, {30, 58.264944, 0.56938978, 4.1854862e-05},
    {40, 54.535898, 0.0635561, 8.764207e-07},  {100, 50.123938, 2.8341204e-06, 1.6899701e-13},
};

// memory: the table of EN 481:1993, in which 91.7 and 0.2 stand where the formula gives 91.76 and 0.12.
constexpr SizeRow remembered[] = {
    {1, 97.1, 97.1, 97.1}, {2, 94.3, 94.3, 91.4}, {3, 91.7, 91.7, 73.9}, {4, 89.3, 89.0, 50.0}, {5, 87.0, 85.4, 30.0},
    {6, 84.9, 80.5, 16.8}, {7, 82.9, 74.2, 9.0},  {8, 80.9, 66.6, 4.8},  {9, 79.1, 58.3, 2.5},  {10, 77.4, 50.0, 1.3},
    {11, 75.8, 42.1, 0.7}, {12, 74.3, 34.9, 0.4}, {14, 71.6, 23.2, 0.2}, {16, 69.1, 15.0, 0},   {18, 67.0, 9.5, 0},
    {20, 65.1, 5.9, 0},    {25, 61.2, 1.8, 0},    {30, 58.3, 0.6, 0},    {40, 54.5, 0.1, 0},    {100, 50.1, 0, 0},
};

TEST(Convention, IsNamedAsSamplersNameTheirFraction) {
  EXPECT_EQ(convention_named("inhalable"), inhalable);
  EXPECT_EQ(convention_named("thoracic"), thoracic);
  EXPECT_EQ(convention_named("respirable"), respirable);
  EXPECT_EQ(convention_named("high-risk respirable"), high_risk);
  EXPECT_EQ(to_text(thoracic), "thoracic");
  EXPECT_EQ(to_text(high_risk), "high-risk respirable");
  EXPECT_FALSE(convention_named("total"));
  EXPECT_FALSE(convention_named(""));
}

double percent(Convention convention, double d_um) { return 100 * convention_share(convention, d_um); }

TEST(Convention, IsTheFormulaAtEachSize) {
  for (const SizeRow& row : by_size) {
    EXPECT_NEAR(percent(inhalable, row.d_um) / row.inhalable_percent, 1, 1e-7) << row.d_um;
    EXPECT_NEAR(percent(thoracic, row.d_um) / row.thoracic_percent, 1, 1e-7) << row.d_um;
    EXPECT_NEAR(percent(respirable, row.d_um) / row.respirable_percent, 1, 1e-7) << row.d_um;
  }
}

TEST(Convention, IsTheTableOfTheStandardToATenth) {
  for (const SizeRow& row : remembered) {
    EXPECT_NEAR(percent(inhalable, row.d_um), row.inhalable_percent, 0.1) << row.d_um;
    EXPECT_NEAR(percent(thoracic, row.d_um), row.thoracic_percent, 0.1) << row.d_um;
    EXPECT_NEAR(percent(respirable, row.d_um), row.respirable_percent, 0.1) << row.d_um;
  }
}

// printed: NMAM 0600 states a median cut of 4 µm for the respirable fraction.
// common practice: 10 µm for the thoracic one.
TEST(Convention, TakesHalfOfAllParticlesAtFourAndTenMicrometres) {
  EXPECT_NEAR(convention_share(respirable, 4.0), 0.5, 0.5e-3);
  EXPECT_NEAR(convention_share(thoracic, 10.0), 0.5, 0.5e-3);
}

TEST(Convention, TakesHalfOfTheInhalableAtItsMedian) {
  EXPECT_DOUBLE_EQ(convention_share(thoracic, 11.64), convention_share(inhalable, 11.64) / 2);
  EXPECT_DOUBLE_EQ(convention_share(respirable, 4.25), convention_share(inhalable, 4.25) / 2);
  EXPECT_DOUBLE_EQ(convention_share(high_risk, 2.5), convention_share(inhalable, 2.5) / 2);
  // own input: computed with SciPy 1.10 by tests/support/computed_aerosols.py.
  EXPECT_NEAR(100 * convention_share(high_risk, 2.5), 46.5177, 0.5e-4);
}

// derived: Φ(−1) of the inhalable at 1.5 times the median.
TEST(Convention, FallsByItsSpreadAboveTheMedian) {
  for (const auto& [convention, median] : {std::pair{thoracic, 11.64}, {respirable, 4.25}, {high_risk, 2.5}})
    EXPECT_NEAR(convention_share(convention, 1.5 * median) / convention_share(inhalable, 1.5 * median),
                test::normal_chance_below(-1), 1e-14);
}

TEST(Convention, TakesAllOfWhatHasNoSize) {
  for (const Convention convention : {inhalable, thoracic, respirable, high_risk})
    EXPECT_EQ(convention_share(convention, 0.0), 1);
}

TEST(Convention, GoesOnBeyondItsHundredMicrometres) {
  EXPECT_NEAR(convention_share(inhalable, 400.0), 0.5, 1e-10);
  EXPECT_NEAR(convention_share(respirable, 400.0), 0, 1e-25);
}

TEST(Convention, HasNoFigureBelowZeroOrWithoutASize) {
  EXPECT_TRUE(std::isnan(convention_share(inhalable, -0.1)));
  EXPECT_TRUE(std::isnan(convention_share(respirable, std::nan(""))));
}

struct AerosolRow {
  LognormalAerosol aerosol;
  double inhalable, thoracic, respirable;
};

// own input: the formula over lognormal aerosols, by Gauss and Legendre's rule in tests/support/computed_aerosols.py
// (NumPy 1.24, SciPy 1.10).
constexpr AerosolRow by_aerosol[] = {
    {{2, 2}, 0.93203559079212, 0.92095632469209, 0.78125516136675},
    {{5, 1.5}, 0.86425164408121, 0.80843827882397, 0.34769686819959},
    {{5, 2}, 0.85388121222330, 0.74708073903831, 0.38378497660548},
    {{10, 2}, 0.76336378627110, 0.47472724134591, 0.12746344871326},
    {{10, 2.5}, 0.75899893034560, 0.47268821976451, 0.17834927287376},
    {{15, 2}, 0.70258122407563, 0.29999383257086, 0.05085811296830},
    {{20, 3}, 0.67022358605085, 0.26602816036466, 0.08406483849729},
};

TEST(Convention, OfAnAerosolIsTheIntegralOfAnotherRule) {
  for (const AerosolRow& row : by_aerosol) {
    EXPECT_NEAR(convention_share(inhalable, row.aerosol), row.inhalable, 1e-13);
    EXPECT_NEAR(convention_share(thoracic, row.aerosol), row.thoracic, 1e-13);
    EXPECT_NEAR(convention_share(respirable, row.aerosol), row.respirable, 1e-13);
  }
  // own input: computed with SciPy 1.10 by tests/support/computed_aerosols.py.
  EXPECT_NEAR(convention_share(high_risk, LognormalAerosol{5, 2}), 0.18138788779733, 1e-13);
}

// own input: computed with SciPy 1.10 by tests/support/computed_aerosols.py.
TEST(Convention, OfAnAerosolKeepsItsAccuracyToAGeometricStandardDeviationOfTen) {
  EXPECT_NEAR(convention_share(respirable, LognormalAerosol{5, 2}), 0.38378497660548, 1e-13);
  EXPECT_NEAR(convention_share(respirable, LognormalAerosol{5, 3}), 0.41479716877170, 1e-13);
  EXPECT_NEAR(convention_share(respirable, LognormalAerosol{5, 10}), 0.45336729712582, 1e-13);
}

TEST(Convention, OfParticlesOfOneSizeIsThatOfTheSize) {
  EXPECT_NEAR(convention_share(thoracic, LognormalAerosol{7, 1}), convention_share(thoracic, 7.0), 1e-15);
}

TEST(Convention, OfWhatIsNoAerosolHasNoFigure) {
  EXPECT_TRUE(std::isnan(convention_share(respirable, LognormalAerosol{5, 0.9})));
  EXPECT_TRUE(std::isnan(convention_share(respirable, LognormalAerosol{})));
}

}  // namespace
}  // namespace driftwarden::convention_test
