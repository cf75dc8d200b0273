// SPDX-License-Identifier: MIT
#include "statistics/pooled_spread.hpp"

#include <cmath>

namespace driftwarden {

PooledSpread pooled_spread(std::span<const MeanAndSpread> sets) {
  double squares = 0;
  double dof = 0;
  for (const MeanAndSpread& set : sets) {
    if (set.n < 2) continue;
    const auto set_dof = static_cast<double>(set.n - 1);
    squares += set_dof * set.s * set.s;
    dof += set_dof;
  }
  return {dof > 0 ? std::sqrt(squares / dof) : no_figure, dof};
}

}  // namespace driftwarden
