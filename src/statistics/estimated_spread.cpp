// SPDX-License-Identifier: MIT
#include "statistics/estimated_spread.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/elementary.hpp"
#include "statistics/bounds.hpp"

namespace driftwarden {

double mean_over_estimated_spread(double dof, const std::function<double(double sigma_over_s)>& f) {
  if (!(dof > 0)) return no_figure;
  // Over t = ln(x/ν), by the weight x^(ν/2) e^(-x/2): smooth, and nothing at either end. The upper end has room for a
  // function that falls like σ^(-60).
  constexpr int points = 200;
  constexpr double room = 60;
  const double widest = dof + room;
  const double from = -std::max(8 * std::sqrt(2 / dof), 40 / dof);
  const double to = elementary::log((widest + 10 * std::sqrt(2 * widest)) / dof);
  double sum = 0;
  double weights = 0;
  for (int i = 0; i <= points; ++i) {
    const double t = from + (to - from) * i / points;
    const double weight = elementary::exp(dof / 2 * (t + 1 - elementary::exp(t)));
    weights += weight;
    sum += weight * f(elementary::exp(-t / 2));
  }
  return sum / weights;
}

}  // namespace driftwarden
