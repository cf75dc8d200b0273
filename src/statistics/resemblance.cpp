// SPDX-License-Identifier: MIT
#include "statistics/resemblance.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

#include "statistics/mean_and_spread.hpp"
#include "statistics/median.hpp"
#include "statistics/robust_trend.hpp"
#include "statistics/rounding_noise.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden {

namespace {

constexpr double largest_phi = 0.85;      // beyond it a short series can't be told from one that walks at random
constexpr double caution = 1.5;           // standard errors; chosen by simulation (tests/reference/load)
constexpr std::size_t fewest_points = 4;  // to say anything of neighbours
constexpr std::size_t fewest_sizes = 5;   // see mann_kendall

double count_of(std::size_t n) { return static_cast<double>(n); }

// `fitted` parameters were taken from the values: their mean, or a line.
Resemblance freed_of_bias(std::span<const double> values, double fitted) {
  std::vector<double> counted;
  std::ranges::copy_if(values, std::back_inserter(counted), [](double value) { return !std::isnan(value); });
  if (counted.size() < fewest_points) return {};
  const double r = lag_one_autocorrelation(counted);
  if (std::isnan(r)) return {};
  const double bias = (fitted + 4 * std::max(r, 0.0)) / count_of(counted.size());
  return {r + bias, counted.size()};
}

}  // namespace

double Resemblance::at_least_zero() const { return std::clamp(phi, 0.0, largest_phi); }

double Resemblance::cautious() const {
  if (n == 0) return 0;
  return std::clamp(phi + caution / std::sqrt(count_of(n)), 0.0, largest_phi);
}

Resemblance resemblance_of(std::span<const double> values) { return freed_of_bias(values, 1); }

Resemblance residual_resemblance(std::span<const double> residuals) { return freed_of_bias(residuals, 2); }

void PooledResemblance::add(const Resemblance& one) {
  sum_ += one.phi * count_of(one.n);
  n_ += one.n;
}

Resemblance PooledResemblance::of_all() const { return n_ == 0 ? Resemblance{} : Resemblance{sum_ / count_of(n_), n_}; }

double inflation_of_a_mean(std::size_t n, double phi) {
  double sum = 0;
  double power = 1;
  for (std::size_t j = 1; j < n; ++j) {
    power *= phi;
    sum += (1 - count_of(j) / count_of(n)) * power;
  }
  return 1 + 2 * sum;
}

double inflation_of_many(double phi) { return (1 + phi) / (1 - phi); }

double points_for_the_spread(std::size_t n, double phi) { return count_of(n) * (1 - phi * phi) / (1 + phi * phi); }

LineFit resembling(const LineFit& line, double phi) {
  if (!(phi > 0) || !(line.dof > 0)) return line;
  LineFit wider = line;
  const double inflation = inflation_of_many(phi);
  const double wider_residuals = line.dof / std::max(line.dof + 2 - 2 * inflation, 1.0);
  wider.dof = std::max(points_for_the_spread(line.n, phi) - (count_of(line.n) - line.dof), 1.0);
  wider.residual_s = line.residual_s * std::sqrt(wider_residuals);
  wider.residual_variance_of_one = line.residual_variance_of_one * wider_residuals;
  wider.centre_variance = line.centre_variance * wider_residuals * inflation;
  wider.slope_variance = line.slope_variance * wider_residuals * inflation;
  return wider;
}

namespace {

// How far the mean of k new points lies from that of m old ones, in the mean square.
double usual_step(double s_before, std::size_t before, std::size_t now, double phi) {
  const double m = count_of(before);
  const double inflation = inflation_of_a_mean(before, phi);
  const double variance = s_before * s_before * (m - 1) / std::max(m - inflation, 1.0);
  return std::sqrt(variance * (inflation_of_a_mean(now, phi) / count_of(now) + inflation / m));
}

double dof_of_steps(std::size_t before, double phi) { return std::max(points_for_the_spread(before, phi) - 1, 1.0); }

}  // namespace

StepTest step_test(std::span<const double> before, std::span<const double> now, double phi) {
  StepTest test;
  if (before.size() < 2 || now.empty()) return test;
  const MeanAndSpread old = mean_and_spread(before);
  test.difference = mean_and_spread(now).mean - old.mean;
  if (!(old.s > rounding_noise(before))) return test;
  test.t = test.difference / usual_step(old.s, before.size(), now.size(), phi);
  test.dof = dof_of_steps(before.size(), phi);
  test.p = student_t_two_sided_p(test.t, test.dof);
  return test;
}

Bounds limits_of_next(std::span<const double> before, double phi, double p) {
  if (before.size() < 2) return {};
  const MeanAndSpread old = mean_and_spread(before);
  if (!(old.s > rounding_noise(before))) return {};
  const double half =
      student_t_quantile(1 - p / 2, dof_of_steps(before.size(), phi)) * usual_step(old.s, before.size(), 1, phi);
  return {old.mean - half, old.mean + half};
}

double growing_scatter_p(std::span<const double> values, double phi) {
  if (values.size() < fewest_sizes) return no_figure;
  const double middle = median(values);
  std::vector<double> sizes;
  for (const double value : values) sizes.push_back(std::fabs(value - middle));
  const TrendTest test = mann_kendall(sizes, inflation_of_many(phi * phi));
  return test.s > 0 ? test.p / 2 : 1;
}

}  // namespace driftwarden
