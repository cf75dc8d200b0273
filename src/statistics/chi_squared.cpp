// SPDX-License-Identifier: MIT
#include "statistics/chi_squared.hpp"

#include <cmath>

#include "statistics/bounds.hpp"
#include "statistics/special_functions.hpp"

namespace driftwarden {

namespace {

bool is_possible(double value, double dof) { return value >= 0 && dof > 0 && std::isfinite(dof); }

}  // namespace

// Chi-squared with ν degrees of freedom is twice a gamma variable of shape ν/2.
double chi_squared_cdf(double value, double dof) {
  if (!is_possible(value, dof)) return no_figure;
  return std::isinf(value) ? 1 : special::gamma_below(dof / 2, value / 2);
}

double chi_squared_upper_tail(double value, double dof) {
  if (!is_possible(value, dof)) return no_figure;
  return std::isinf(value) ? 0 : special::gamma_above(dof / 2, value / 2);
}

}  // namespace driftwarden
