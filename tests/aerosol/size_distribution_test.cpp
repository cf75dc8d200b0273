// SPDX-License-Identifier: MIT
#include "aerosol/size_distribution.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "aerosol/penetration.hpp"
#include "statistics/data_file.hpp"
#include "statistics/quadrature.hpp"

namespace driftwarden::size_distribution_test {
namespace {

template <class Share>
double mean(const LognormalAerosol& of, Share share_of) {
  double sum = 0;
  for (const SizeShare& size : size_shares(of)) sum += size.share * share_of(size.d_um);
  return sum;
}

TEST(SizeShares, AddUpToAllOfTheMass) {
  for (const double gsd : {1.0, 1.5, 2.0, 10.0}) EXPECT_NEAR(mean({5, gsd}, [](double) { return 1; }), 1, 1e-14) << gsd;
}

// derived: of ln d the mean is ln M and the variance ln²G; of d itself the mean is M e^(ln²G / 2).
TEST(SizeShares, HaveTheMomentsOfALognormalDistribution) {
  const double log_gsd = std::log(2.5);
  EXPECT_NEAR(mean({5, 2.5}, [](double d) { return std::log(d); }), std::log(5), 1e-13);
  EXPECT_NEAR(mean({5, 2.5}, [](double d) { return std::pow(std::log(d / 5), 2); }), log_gsd * log_gsd, 1e-13);
  EXPECT_NEAR(mean({5, 2.5}, [](double d) { return d; }), 5 * std::exp(log_gsd * log_gsd / 2), 1e-12);
}

// own input: the closed form, computed with SciPy 1.10 by tests/support/computed_aerosols.py.
TEST(SizeShares, IntegrateAPenetrationCurveToThirteenDigits) {
  EXPECT_NEAR(mean({5, 2}, [](double d) { return penetration({4, 1.25}, d); }), 0.37963478469914314, 1e-13);
  EXPECT_NEAR(mean({5, 2}, [](double d) { return penetration({4, 1.5}, d); }), 0.39055321471751026, 1e-13);
}

// derived: the closed form at the stated end of the accuracy, ln G = 5.6 ln σ.
TEST(SizeShares, IntegrateACurveAsSteepAsIsStated) {
  const LognormalAerosol wide{5, std::exp(5.6 * std::log(1.5))};
  const double closed = test::normal_chance_below(std::log(4.0 / 5) / std::hypot(std::log(1.5), std::log(wide.gsd)));
  EXPECT_NEAR(mean(wide, [](double d) { return penetration({4, 1.5}, d); }), closed, 1e-13);
}

TEST(SizeShares, AreAllOfOneSizeWithoutASpread) {
  for (const SizeShare& size : size_shares({7, 1})) EXPECT_EQ(size.d_um, 7);
}

TEST(SizeShares, AreNoneOfWhatIsNoAerosol) {
  EXPECT_TRUE(size_shares({0, 2}).empty());
  EXPECT_TRUE(size_shares({5, 0.99}).empty());
  EXPECT_TRUE(size_shares({5, std::nan("")}).empty());
  EXPECT_TRUE(size_shares({}).empty());
}

// printed: 40 CFR 53.43, Table D-3, annual edition 2015, the ideal PM10 sampler.
std::vector<double> table_d3(std::size_t column) {
  return test::column_of("cfr_40_53_43_table_d3.csv", column, "aerosol");
}

struct Mode {
  double mass;  // µg/m³
  LognormalAerosol aerosol;
};

// input: the two modes that Table D-3 was made of, and the end of its last interval; it names neither, they were found
// from it by least squares in tests/support/computed_aerosols.py.
constexpr Mode modes[] = {{74.72463309, {0.5017574253, 1.998477135}}, {225.0012962, {14.016049337, 2.000017968}}};
constexpr double end_of_table_d3_um = 50.258039593;

double mass_between(double from_um, double to_um) {
  double sum = 0;
  for (const Mode& mode : modes)
    sum += mode.mass * (sampled_share({to_um, 1}, mode.aerosol) - sampled_share({from_um, 1}, mode.aerosol));
  return sum;
}

// Each size stands for what lies half way to its neighbours; the first row is all below 1.0 µm.
std::vector<double> ends_of_table_d3(const std::vector<double>& sizes) {
  std::vector<double> ends = {0, 1};
  for (std::size_t i = 1; i + 1 < sizes.size(); ++i) ends.push_back((sizes[i] + sizes[i + 1]) / 2);
  ends.push_back(end_of_table_d3_um);
  return ends;
}

TEST(LognormalAerosol, HasTheIntervalMassesOfTheTableForPm10Samplers) {
  const std::vector<double> ends = ends_of_table_d3(table_d3(0));
  const std::vector<double> printed = table_d3(2);
  for (std::size_t i = 0; i < printed.size(); ++i)
    EXPECT_NEAR(mass_between(ends[i], ends[i + 1]), printed[i], 0.5e-3 + 1e-6) << i;  // the digits printed
}

// printed: 143.889 µg/m³ at the foot of Table D-3; 37 masses rounded by half a digit at most make it uncertain by less.
TEST(LognormalAerosol, GivesTheExpectedMassOfTheIdealPm10Sampler) {
  const std::vector<double> ends = ends_of_table_d3(table_d3(0));
  const std::vector<double> effectiveness = table_d3(1);
  double sum = 0;
  for (std::size_t i = 0; i < effectiveness.size(); ++i) sum += effectiveness[i] * mass_between(ends[i], ends[i + 1]);
  EXPECT_NEAR(sum, 143.889, 0.005);
}

// memory: the ideal sampler's effectiveness is 0.9585 - 0.00408 d² from 1.5 to 15 µm; Table D-3 prints it to three
// decimals.
TEST(LognormalAerosol, IsTakenAsTheIdealPm10SamplersPolynomialSays) {
  const auto ideal = [](double d) { return d < 1 ? 1 : d > 15.33 ? 0 : std::min(1.0, 0.9585 - 0.00408 * d * d); };
  const std::vector<double> sizes = table_d3(0);
  const std::vector<double> effectiveness = table_d3(1);
  for (std::size_t i = 1; i < sizes.size(); ++i)
    EXPECT_NEAR(ideal(sizes[i]), sizes[i] > 15 ? 0 : effectiveness[i], 0.5e-3 + 1e-9) << sizes[i];
  double sum = 0;
  for (const Mode& mode : modes) sum += mode.mass * mean(mode.aerosol, ideal);
  EXPECT_NEAR(sum / 143.889, 1, 0.005);  // the rule is not made for steps, the table's intervals are coarse
}

}  // namespace
}  // namespace driftwarden::size_distribution_test
