// SPDX-License-Identifier: MIT
#include "statistics/outliers.hpp"

#include <algorithm>
#include <cmath>

#include "statistics/mean_and_spread.hpp"
#include "statistics/student_t.hpp"

namespace driftwarden {

namespace {

// How far out a value is, as the suspicion goes.
double distance(double value, double mean, Suspect suspect) {
  if (suspect == Suspect::largest) return value - mean;
  if (suspect == Suspect::smallest) return mean - value;
  return std::fabs(value - mean);
}

std::optional<OutlierCheck> grubbs_suspect(std::span<const double> values, Suspect suspect) {
  const MeanAndSpread all = mean_and_spread(values);
  if (all.n < 3 || !(all.s > 0)) return std::nullopt;
  OutlierCheck check;
  double largest = distance(values[0], all.mean, suspect);
  for (std::size_t i = 1; i < values.size(); ++i) {
    const double reach = distance(values[i], all.mean, suspect);
    if (reach <= largest) continue;
    largest = reach;
    check.index = i;
  }
  check.statistic = largest / all.s;
  return check;
}

}  // namespace

double grubbs_critical(std::size_t n, Suspect suspect, double significance) {
  if (n < 3 || !(significance > 0 && significance < 1)) return no_figure;
  const auto count = static_cast<double>(n);
  const double tail = significance / (suspect == Suspect::either_end ? 2 * count : count);
  const double t = student_t_quantile(tail, count - 2);
  return (count - 1) / std::sqrt(count) * std::sqrt(t * t / (count - 2 + t * t));
}

std::optional<OutlierCheck> grubbs(std::span<const double> values, Suspect suspect, double significance) {
  auto check = grubbs_suspect(values, suspect);
  if (!check) return std::nullopt;
  check->critical = grubbs_critical(values.size(), suspect, significance);
  check->significant = check->statistic > check->critical;
  return check;
}

}  // namespace driftwarden
