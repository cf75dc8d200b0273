// SPDX-License-Identifier: MIT
#include "statistics/mean_and_spread.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "statistics/data_file.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::mean_and_spread_test {
namespace {

// Certified values: NIST Statistical Reference Datasets, univariate summary statistics, 15 digits. Tolerances are what
// doubles can reach on the data as stored (relative): see each test.
void expect_certified(const std::vector<double>& values, double mean, double s, double lag_one, double mean_tolerance,
                      double s_tolerance, double lag_tolerance) {
  const MeanAndSpread found = mean_and_spread(values);
  EXPECT_NEAR(found.mean / mean, 1, mean_tolerance);
  EXPECT_NEAR(found.s / s, 1, s_tolerance);
  EXPECT_NEAR(lag_one_autocorrelation(values) / lag_one, 1, lag_tolerance);
}

// NumAcc2 to 4 as NIST builds them: a value, then 0.1 less and 0.1 more in turn, 1001 in all.
std::vector<double> alternating(double first, double low, double high) {
  std::vector<double> values{first};
  for (int i = 0; i < 500; ++i) {
    values.push_back(low);
    values.push_back(high);
  }
  return values;
}

TEST(MeanAndSpread, AgreesWithCertifiedValuesOfEasyData) {
  // printed: NIST Statistical Reference Datasets, univariate summary statistics, Lew and Lottery, certified values.
  // Tolerance: rounding of some hundred additions.
  expect_certified(test::column_of("nist_strd_lew.csv"), -177.435, 277.332168044316, -0.307304800605679, 1e-14, 1e-14,
                   1e-13);
  expect_certified(test::column_of("nist_strd_lottery.csv"), 518.958715596330, 291.699727470969, -0.120948622967393,
                   1e-14, 1e-14, 1e-13);
}

TEST(MeanAndSpread, AgreesWithCertifiedValuesOfDataWithManyLeadingDigits) {
  // printed: the same collection, Mavro and Michelso, certified values. Tolerance: the decimals of the data are not
  // representable; five digits are common to all values.
  expect_certified(test::column_of("nist_strd_mavro.csv"), 2.001856, 0.000429123454003053, 0.937989183438248, 1e-14,
                   1e-11, 1e-12);
  expect_certified(test::column_of("nist_strd_michelso.csv"), 299.8524, 0.0790105478190518, 0.535199668621283, 1e-14,
                   1e-11, 1e-12);
}

// printed: NIST Statistical Reference Datasets, univariate summary statistics, NumAcc1 to NumAcc4, certified values.
TEST(MeanAndSpread, SurvivesTheDataSetsMadeToBreakIt) {
  const std::array<double, 3> num_acc_1{10000001, 10000003, 10000002};
  EXPECT_EQ(mean_and_spread(num_acc_1).mean, 10000002);
  EXPECT_DOUBLE_EQ(mean_and_spread(num_acc_1).s, 1);
  EXPECT_DOUBLE_EQ(lag_one_autocorrelation(num_acc_1), -0.5);
  expect_certified(alternating(1.2, 1.1, 1.3), 1.2, 0.1, -0.999, 1e-13, 1e-13, 1e-12);
  // derived: of the doubles nearest to the decimals, in longer arithmetic, s is 0.1000000000349 and 0.10000000055879:
  // no method gets closer.
  expect_certified(alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, -0.999, 1e-14, 1e-9, 1e-9);
  expect_certified(alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, -0.999, 1e-13, 1e-8, 1e-8);
  EXPECT_NEAR(mean_and_spread(alternating(10000000.2, 10000000.1, 10000000.3)).s, 0.10000000055879, 1e-13);
}

TEST(MeanAndSpread, DividesByNMinusOne) {
  const std::array<double, 5> readings{2.013, 2.008, 2.011, 2.015, 2.009};  // derived: worked example of the header
  const MeanAndSpread found = mean_and_spread(readings);
  EXPECT_EQ(found.n, 5U);
  // derived: sum 10.056, squares 32.8e-6 / 4; the root of it as in 0.00286356, computed with SciPy 1.10 by
  // tests/support/computed_statistics.py.
  EXPECT_NEAR(found.mean, 2.0112, 1e-15);
  EXPECT_NEAR(found.s * found.s, 8.2e-6, 1e-17);  // 32.8e-6 / 4; divided by n it would be 6.56e-6
  EXPECT_EQ(found.smallest, 2.008);
  EXPECT_EQ(found.largest, 2.015);
  EXPECT_NEAR(found.range(), 0.007, 1e-15);
  EXPECT_NEAR(found.relative_s(), 0.00286356 / 2.0112, 1e-8);
}

TEST(MeanAndSpread, OfOneValueHasNoS) {
  const std::array<double, 1> one{2.5};
  const MeanAndSpread found = mean_and_spread(one);
  EXPECT_EQ(found.n, 1U);
  EXPECT_EQ(found.mean, 2.5);
  EXPECT_TRUE(std::isnan(found.s));
  EXPECT_EQ(found.range(), 0);
  EXPECT_TRUE(std::isnan(lag_one_autocorrelation(one)));
}

TEST(MeanAndSpread, OfNothingIsNoFigure) {
  const MeanAndSpread found = mean_and_spread({});
  EXPECT_EQ(found.n, 0U);
  EXPECT_TRUE(std::isnan(found.mean));
  EXPECT_TRUE(std::isnan(found.s));
  EXPECT_TRUE(std::isnan(found.smallest));
  EXPECT_TRUE(std::isnan(found.largest));
}

TEST(MeanAndSpread, OfEqualValuesIsExactlyZero) {
  const std::array<double, 4> equal{1.9, 1.9, 1.9, 1.9};
  EXPECT_EQ(mean_and_spread(equal).mean, 1.9);
  EXPECT_EQ(mean_and_spread(equal).s, 0);
  EXPECT_TRUE(std::isnan(lag_one_autocorrelation(equal)));
}

TEST(MeanAndSpread, IsNoFigureWithAValueThatIsNotFinite) {
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    const std::array<double, 3> values{1, bad, 3};
    const MeanAndSpread found = mean_and_spread(values);
    EXPECT_EQ(found.n, 3U);
    EXPECT_TRUE(std::isnan(found.mean));
    EXPECT_TRUE(std::isnan(found.s));
    EXPECT_TRUE(std::isnan(found.smallest));
  }
}

TEST(MeanAndSpread, NeitherOverflowsNorVanishes) {
  // Squares of these are beyond doubles. Tolerance: rounding of the decimals.
  const std::array<double, 3> huge{1e200, 2e200, 3e200};
  EXPECT_NEAR(mean_and_spread(huge).s / 1e200, 1, 1e-14);
  EXPECT_NEAR(mean_and_spread(huge).mean / 2e200, 1, 1e-14);
  const std::array<double, 3> tiny{1e-200, 2e-200, 3e-200};
  EXPECT_NEAR(mean_and_spread(tiny).s / 1e-200, 1, 1e-14);
  const std::array<double, 3> small{1e-160, 2e-160, 3e-160};
  EXPECT_NEAR(mean_and_spread(small).s / 1e-160, 1, 1e-14);
}

TEST(MeanAndSpread, AgreesWithTwoPassesInMoreDigits) {
  test::RandomNumbers random(10);
  for (int set = 0; set < 2000; ++set) {
    std::vector<double> values(2 + random.bits() % 9);
    for (double& value : values) value = 1000 * random.uniform() + 0.01 * random.normal();
    long double sum = 0;
    for (const double value : values) sum += value;
    const long double mean = sum / static_cast<long double>(values.size());
    long double squares = 0;
    for (const double value : values) squares += (value - mean) * (value - mean);
    const auto s = static_cast<double>(std::sqrt(squares / static_cast<long double>(values.size() - 1)));
    EXPECT_NEAR(mean_and_spread(values).mean / static_cast<double>(mean), 1, 1e-14);
    EXPECT_NEAR(mean_and_spread(values).s / s, 1, 1e-13);
  }
}

TEST(MeanAndSpread, OfAMeanOfZeroHasNoRelativeS) {
  const std::array<double, 2> values{-1, 1};
  EXPECT_TRUE(std::isnan(mean_and_spread(values).relative_s()));
  const std::array<double, 2> negative{-1, -3};
  EXPECT_NEAR(mean_and_spread(negative).relative_s(), std::sqrt(2.0) / 2, 1e-15);
}

TEST(LagOne, OfTheHandbooksFlowRates) {
  // printed input: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, by the definition of the Statistical
  // Reference Datasets; computed with NumPy 1.24 by tests/support/computed_statistics.py.
  const std::array<double, 10> flow{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
  EXPECT_NEAR(lag_one_autocorrelation(flow), 0.4106986489, 1e-9);
}

// input: any values; the correlation has no unit.
TEST(LagOne, IsTheSameInAnyUnit) {
  const std::array<double, 5> values{1, 3, 2, 5, 4};
  std::array<double, 5> tiny{};
  for (std::size_t i = 0; i < tiny.size(); ++i) tiny[i] = values[i] * 1e-200;
  EXPECT_NEAR(lag_one_autocorrelation(tiny), lag_one_autocorrelation(values), 1e-12);
}

}  // namespace
}  // namespace driftwarden::mean_and_spread_test
