// SPDX-License-Identifier: MIT
#include "statistics/fisher_f.hpp"

#include <cmath>
#include <limits>

#include "statistics/bounds.hpp"
#include "statistics/special_functions.hpp"

namespace driftwarden {

namespace {

bool has_freedom(double dof) { return dof > 0 && std::isfinite(dof); }

}  // namespace

double fisher_f_upper_quantile(double tail, double dof_above, double dof_below) {
  if (!has_freedom(dof_above) || !has_freedom(dof_below) || !(tail >= 0 && tail <= 1)) return no_figure;
  if (tail == 0) return std::numeric_limits<double>::infinity();
  return special::fisher_f_above_inverse(dof_above, dof_below, tail);
}

}  // namespace driftwarden
