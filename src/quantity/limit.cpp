// SPDX-License-Identifier: MIT
#include "quantity/limit.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace driftwarden {

namespace {

double reach_of_limit(double figure, double limit) {
  if (limit == 0) return on_a_limit_of_zero;
  return on_the_limit * std::max(std::fabs(figure), std::fabs(limit));
}

}  // namespace

Side side_of_limit(double figure, double limit) {
  assert(!std::isnan(figure) && !std::isnan(limit));
  const bool finite = std::isfinite(figure) && std::isfinite(limit);
  if (finite && std::fabs(figure - limit) <= reach_of_limit(figure, limit)) return Side::on;
  if (figure == limit) return Side::on;
  return figure < limit ? Side::below : Side::above;
}

}  // namespace driftwarden
