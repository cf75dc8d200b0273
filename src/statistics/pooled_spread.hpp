// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "statistics/bounds.hpp"
#include "statistics/mean_and_spread.hpp"

namespace driftwarden {

struct PooledSpread {
  double s = no_figure;
  double dof = 0;
};

// One standard deviation out of several sets.
//
//   s_p = √( Σ(n_i - 1)s_i² / Σ(n_i - 1) ),   ν = Σ(n_i - 1)
//
//   n_i, s_i number and standard deviation of set i
//   Source   JCGM 100:2008 (GUM) 4.2.4; ISO 5725-2 (common practice)
//   Valid    sets of one true spread; sets of fewer than two values say nothing and are passed over
//   Example  s 0.003 of 5 and 0.001 of 3  ->  0.002517, ν 6
PooledSpread pooled_spread(std::span<const MeanAndSpread> sets);

}  // namespace driftwarden
