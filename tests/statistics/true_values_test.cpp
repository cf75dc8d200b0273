// SPDX-License-Identifier: MIT
#include "statistics/true_values.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "statistics/global_risk.hpp"
#include "statistics/mean_and_spread.hpp"
#include "statistics/normal_distribution.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::true_values_test {
namespace {

// input: figures whose quartiles are 1.349 apart and whose s is larger: r is 1.
std::vector<double> hundred_figures() {
  std::vector<double> figures;
  for (int i = 0; i < 100; ++i) figures.push_back(i < 50 ? -0.6745 : 0.6745);
  figures[0] = -9;
  figures[99] = 9;
  return figures;
}

TEST(TrueValues, OfExactFiguresAreTheseSmoothed) {
  const TrueValues values = true_values_from(hundred_figures(), std::vector<double>(100, 0.0));
  EXPECT_NEAR(values.spread, 1, 1e-9);
  EXPECT_NEAR(values.smoothing, 0.358296, 1e-6);  // derived: 0.9 · 100^-0.2
  // derived: √(1 - 0.358296²) = 0.933607, by which all are drawn together: 9 becomes 8.402464
  EXPECT_NEAR(values.parts.back().mean, 8.402464, 1e-5);
  EXPECT_NEAR(values.parts.back().s, 0.358296, 1e-6);
  EXPECT_EQ(values.parts.size(), 100U);
}

TEST(TrueValues, LeaveWhatHasNoNeighboursWhereItIs) {
  const TrueValues exact = true_values_from(hundred_figures(), std::vector<double>(100, 0.0));
  const TrueValues measured = true_values_from(hundred_figures(), std::vector<double>(100, 0.5));
  EXPECT_NEAR(measured.measuring, 0.5, 1e-12);
  EXPECT_NEAR(measured.parts.back().mean, exact.parts.back().mean, 1e-12);
  EXPECT_NEAR(measured.parts.back().s, exact.parts.back().s, 1e-12);  // the kernel is narrower than u
  EXPECT_NE(measured.parts[50].mean, exact.parts[50].mean);
}

// derived: of a normal fleet it is Bayes' theorem: what is true has the variance of the figures less that of measuring.
TEST(TrueValues, OfANormalFleetHaveTheVarianceThatMeasuringLeaves) {
  std::vector<double> figures;  // the quantiles of a normal distribution of s 2
  for (int i = 0; i < 400; ++i) figures.push_back(2 * normal_quantile((i + 0.5) / 400));
  const TrueValues values = true_values_from(figures, std::vector<double>(400, 1.0));
  double variance = 0;
  for (const TrueValuePart& part : values.parts) variance += (part.mean * part.mean + part.s * part.s) / 400;
  EXPECT_NEAR(variance, 3, 0.2);
  EXPECT_NEAR(values.parts[300].mean / true_values_from(figures, std::vector<double>(400, 0.0)).parts[300].mean, 0.75,
              0.01);
}

TEST(TrueValues, OfTooFewFiguresAreNotKnown) {
  const std::vector<double> few(19, 1.0);
  EXPECT_TRUE(true_values_from(few, few).parts.empty());
  EXPECT_EQ(true_values_from(few, few).n, 19U);
}

TEST(TrueValues, OfFiguresAllAlikeAreOne) {
  const TrueValues values = true_values_from(std::vector<double>(20, 1.5), std::vector<double>(20, 0.1));
  for (const TrueValuePart& part : values.parts) {
    EXPECT_EQ(part.mean, 1.5);
    EXPECT_EQ(part.s, 0);
  }
  EXPECT_EQ(values.parts.size(), 20U);
}

// The share of bad items that pass, by figures of a made fleet; what tests/reference/load/risk_load does at length.
double estimated(test::RandomNumbers& random, std::size_t n, double s, double u) {
  std::vector<double> figures;
  for (std::size_t i = 0; i < n; ++i) figures.push_back(s * random.normal() + u * random.normal());
  const TrueValues values = true_values_from(figures, std::vector<double>(n, u));
  double sum = 0;
  for (const TrueValuePart& part : values.parts)
    sum += global_risk({part.mean, part.s, u}, {-5, 5}, {-5, 5}).accepted_beyond;
  return sum / static_cast<double>(n);
}

TEST(TrueValues, GiveTheRiskOfANormalFleet) {
  test::RandomNumbers random(1);
  std::vector<double> shares;
  for (int i = 0; i < 100; ++i) shares.push_back(estimated(random, 150, 2.5, 0.8));
  const MeanAndSpread spread = mean_and_spread(shares);
  const double truth = global_risk({0, 2.5, 0.8}, {-5, 5}, {-5, 5}).accepted_beyond;
  EXPECT_NEAR(spread.mean / truth, 1, 0.15) << "a hundred fleets, each off by " << spread.s / truth;
}

}  // namespace
}  // namespace driftwarden::true_values_test
