// SPDX-License-Identifier: MIT
#pragma once

#include <functional>

namespace driftwarden {

// The mean of a function of σ where σ is known by an estimate s alone, as Student's t is that of the normal
// distribution.
//
//   E f(σ) = ∫ f( s √(ν/x) ) g_ν(x) dx,   g_ν the density of χ² with ν degrees of freedom
//
//   s, ν     standard deviation of independent normal values, and its degrees of freedom; f is passed σ/s
//   Source   the fiducial distribution of σ (Fisher); what is rarer than so for all that range/s tells is so rare
//            whatever σ is
//   Valid    ν > 0, NaN otherwise; f bounded
//   Example  f (s/σ)⁴, ν 10  ->  1.2, which is 1 + 2/ν
double mean_over_estimated_spread(double dof, const std::function<double(double sigma_over_s)>& f);

}  // namespace driftwarden
