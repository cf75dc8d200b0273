// SPDX-License-Identifier: MIT
#include "statistics/true_values.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/elementary.hpp"
#include "statistics/mean_and_spread.hpp"
#include "statistics/median.hpp"

namespace driftwarden {
namespace {

double root_mean_square(std::span<const double> values) {
  double sum = 0;
  for (const double value : values) sum += value * value;
  return std::sqrt(sum / static_cast<double>(values.size()));
}

// That of the figures in the middle, as of a normal distribution, unless s is smaller.
double spread_of_most(std::span<const double> figures) {
  constexpr double quartiles_apart = 1.349;  // of a normal distribution, in s
  const double apart =
      quantile(figures, 0.75, QuantileRank::median_unbiased) - quantile(figures, 0.25, QuantileRank::median_unbiased);
  const double s = mean_and_spread(figures).s;
  return apart > 0 ? std::min(s, apart / quartiles_apart) : s;
}

// The logarithm of the figures' density at one place: its slope, and the slope of that.
struct LogDensity {
  double slope = 0;
  double bend = 0;
};
LogDensity log_density(std::span<const double> figures, double at, double width) {
  double weights = 0;
  double sum = 0;
  double squares = 0;
  for (const double figure : figures) {
    const double away = (figure - at) / width;
    const double weight = elementary::exp(-away * away / 2);
    weights += weight;
    sum += weight * away;
    squares += weight * away * away;
  }
  const double mean = sum / weights;
  return {mean / width, (squares / weights - mean * mean - 1) / (width * width)};
}

}  // namespace

TrueValues true_values_from(std::span<const double> figures, std::span<const double> u) {
  TrueValues values;
  values.n = figures.size();
  if (figures.size() < fewest_for_true_values) return values;
  values.centre = median(figures);
  values.spread = spread_of_most(figures);
  values.measuring = root_mean_square(u);
  values.smoothing = 0.9 * values.spread * elementary::pow(static_cast<double>(figures.size()), -0.2);
  const double smoothed = values.spread > 0 ? values.smoothing / values.spread : 0;
  const double together = std::sqrt(1 - smoothed * smoothed);
  const double sharper = 1 + smoothed * smoothed;
  for (std::size_t i = 0; i < figures.size(); ++i) {
    const double own = u[i] * u[i];
    const bool is_told = own > 0 && values.smoothing > 0;
    const LogDensity density = is_told ? log_density(figures, figures[i], values.smoothing) : LogDensity{};
    const double expected = figures[i] + own * sharper * density.slope;
    const double variance = is_told ? std::clamp(own * (1 + own * sharper * density.bend), 0.0, own) : 0;
    values.parts.push_back({values.centre + (expected - values.centre) * together,
                            elementary::hypot(std::sqrt(variance), values.smoothing)});
  }
  return values;
}

}  // namespace driftwarden
