// SPDX-License-Identifier: MIT
#include "assessment/drift.hpp"

#include <gtest/gtest.h>

#include <boost/math/differentiation/autodiff.hpp>

#include "record/sample.hpp"

namespace driftwarden::drift_test {
namespace {

constexpr double half_a_digit_3 = 0.5e-5;  // percentages below are given to 0.001 %

struct DriftCase {
  double pre, post;
  double of_pre, of_post, of_mean;  // percent
};

// own input: (post - pre) / base, computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(Drift, IsAPercentageOfItsBase) {
  for (const DriftCase& c :
       {DriftCase{2.000, 1.905, -4.750, -4.987, -4.866}, DriftCase{2.000, 1.904, -4.800, -5.042, -4.918},
        DriftCase{2.000, 1.900, -5.000, -5.263, -5.128}, DriftCase{2.000, 2.103, 5.150, 4.898, 5.021}}) {
    EXPECT_NEAR(drift(c.pre, c.post, DriftBase::pre, missing), c.of_pre / 100, half_a_digit_3) << c.post;
    EXPECT_NEAR(drift(c.pre, c.post, DriftBase::post, missing), c.of_post / 100, half_a_digit_3) << c.post;
    EXPECT_NEAR(drift(c.pre, c.post, DriftBase::mean, missing), c.of_mean / 100, half_a_digit_3) << c.post;
  }
}

// own input: set 5 % above what was wanted, and still within 5 % of itself at the end; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(Drift, OfAPumpSetTooHighIsNotItsDeviation) {
  EXPECT_NEAR(drift(2.100, 1.998, DriftBase::pre, 2.0), -0.04857, half_a_digit_3);
  EXPECT_NEAR(drift(2.100, 1.998, DriftBase::nominal, 2.0), -0.05100, half_a_digit_3);
  EXPECT_NEAR(deviation(2.100, 2.0), 0.05, 1e-15);
  EXPECT_NEAR(deviation((2.100 + 1.998) / 2, 2.0), 0.0245, 1e-15);
}

TEST(Drift, HasTheSignOfTheChange) {
  EXPECT_GT(drift(2.0, 2.1, DriftBase::pre, missing), 0);
  EXPECT_LT(drift(2.1, 2.0, DriftBase::pre, missing), 0);
  EXPECT_EQ(drift(2.0, 2.0, DriftBase::pre, missing), 0);
}

TEST(Drift, IsMissingWhereAFlowIs) {
  EXPECT_TRUE(is_missing(drift(missing, 2.0, DriftBase::pre, 2.0)));
  EXPECT_TRUE(is_missing(drift(2.0, missing, DriftBase::pre, 2.0)));
  EXPECT_TRUE(is_missing(drift(2.0, 2.0, DriftBase::nominal, missing)));
  EXPECT_TRUE(is_missing(deviation(2.0, missing)));
}

TEST(Drift, BaseIsOneOfTheFlows) {
  EXPECT_EQ(base_flow(2.0, 1.0, DriftBase::pre, 3.0), 2.0);
  EXPECT_EQ(base_flow(2.0, 1.0, DriftBase::post, 3.0), 1.0);
  EXPECT_EQ(base_flow(2.0, 1.0, DriftBase::mean, 3.0), 1.5);
  EXPECT_EQ(base_flow(2.0, 1.0, DriftBase::nominal, 3.0), 3.0);
}

// derived: by Boost.Math's forward derivative of the formula of drift itself.
TEST(Drift, WeightsAreTheDerivativesOfItsFormula) {
  using boost::math::differentiation::make_ftuple;
  const auto [pre, post] = make_ftuple<double, 1, 1>(2.01, 1.93);
  using Number = std::decay_t<decltype(pre * post)>;
  for (const DriftBase base : {DriftBase::pre, DriftBase::post, DriftBase::mean, DriftBase::nominal}) {
    const Number from = base_flow(Number(pre), Number(post), base, Number(1.7));
    const Number d = drift(Number(pre), Number(post), from);
    const FlowWeights weights = drift_weights(2.01, 1.93, base, 1.7);
    EXPECT_NEAR(weights.pre, d.derivative(1, 0), 1e-15) << to_text(base);
    EXPECT_NEAR(weights.post, d.derivative(0, 1), 1e-15) << to_text(base);
  }
}

}  // namespace
}  // namespace driftwarden::drift_test
