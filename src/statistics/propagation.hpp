// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "statistics/bounds.hpp"
#include "statistics/correlation.hpp"
#include "statistics/welch_satterthwaite.hpp"

namespace driftwarden {

struct CombinedUncertainty {
  double u = no_figure;
  double dof = no_figure;  // not rounded; NaN for correlated inputs, for which there is no accepted formula
};

// Combined standard uncertainty of independent inputs.
//
//   u_c² = Σ (c_i u_i)²
//
//   u_i, c_i standard uncertainty and sensitivity of input i
//   Source   JCGM 100:2008 (GUM) 5.1.2, equation 10
//   Valid    a result nearly linear within the inputs' uncertainties
//   Example  end gauge of GUM H.1: 25, 9.7, 2.9, 16.6 nm  ->  31.7 nm
CombinedUncertainty combined_uncertainty(std::span<const UncertaintyContribution> contributions);

// Combined standard uncertainty of correlated inputs.
//
//   u_c² = Σ_i Σ_j c_i u_i · c_j u_j · r_ij
//
//   r_ij     correlation of inputs i and j
//   Source   JCGM 100:2008 (GUM) 5.2.2, equation 16
//   Valid    as above; as many rows as inputs; NaN if the matrix is none of correlations (u_c² < 0)
//   Example  GUM H.2: R from voltage, current and phase  ->  0.071 Ω (0.195 Ω if r were left out)
CombinedUncertainty combined_uncertainty(std::span<const UncertaintyContribution> contributions,
                                         const CorrelationMatrix& correlations);

// Half-width of the interval that holds a share `coverage`.
//
//   U = t_(1 + p)/2 (⌊ν_eff⌋) · u_c
//
//   p        coverage
//   Source   JCGM 100:2008 (GUM) G.4.1 (ν truncated down) and G.6.4
//   Valid    u_c dominated by no single input of bounded shape; ν below 1 is used as it is
//   Example  u_c 0.00702377, ν 4.38, p 0.95  ->  0.0195
double expanded_uncertainty(const CombinedUncertainty& combined, double coverage);

}  // namespace driftwarden
