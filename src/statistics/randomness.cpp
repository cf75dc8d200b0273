// SPDX-License-Identifier: MIT
#include "statistics/randomness.hpp"

#include <cmath>

#include "statistics/mean_and_spread.hpp"
#include "statistics/normal_distribution.hpp"

namespace driftwarden {

namespace {

void count_sides_and_runs(std::span<const double> values, double cut, RunsTest& test) {
  int side_before = 0;
  for (const double value : values) {
    const int side = (value > cut ? 1 : 0) - (value < cut ? 1 : 0);
    if (side == 0) continue;
    ++(side > 0 ? test.above : test.below);
    if (side != side_before) ++test.runs;
    side_before = side;
  }
}

}  // namespace

RunsTest runs_test(std::span<const double> values, double cut) {
  RunsTest test;
  count_sides_and_runs(values, cut, test);
  if (test.above == 0 || test.below == 0) return test;
  const auto n = static_cast<double>(test.above + test.below);
  const double product = 2 * static_cast<double>(test.above) * static_cast<double>(test.below);
  const double variance = product * (product - n) / (n * n * (n - 1));
  if (!(variance > 0)) return test;
  test.z = (static_cast<double>(test.runs) - (product / n + 1)) / std::sqrt(variance);
  test.p = 2 * normal_cdf(-std::fabs(test.z));
  return test;
}

double von_neumann_ratio(std::span<const double> values) {
  const MeanAndSpread all = mean_and_spread(values);
  if (!(all.s > 0)) return no_figure;
  double squares = 0;
  for (std::size_t i = 1; i < values.size(); ++i) {
    const double step = (values[i] - values[i - 1]) / all.s;
    squares += step * step;
  }
  return squares / static_cast<double>(all.n - 1);
}

}  // namespace driftwarden
