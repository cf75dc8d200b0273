// SPDX-License-Identifier: MIT
#pragma once

#include <limits>
#include <span>

namespace driftwarden {

// What one input adds to a result's uncertainty.
struct UncertaintyContribution {
  double standard_uncertainty = 0;
  double sensitivity = 1;  // change of the result per change of the input, with its sign
  double dof = std::numeric_limits<double>::infinity();

  double signed_amount() const { return sensitivity * standard_uncertainty; }
};

// Effective degrees of freedom.
//
//   ν_eff = (Σ c_i²u_i²)² / Σ( (c_i u_i)⁴ / ν_i )
//
//   u_i, c_i standard uncertainty and sensitivity of input i      ν_i  its degrees of freedom
//   Source   JCGM 100:2008 (GUM) G.4.1, equation G.2b
//   Valid    independent inputs; infinite when every ν_i is or nothing contributes; NaN for a ν_i not above 0
//   Example  end gauge of GUM H.1: 25, 9.7, 2.9, 16.6 nm with ν 18, 25.6, 50, 2  ->  16.76
double effective_degrees_of_freedom(std::span<const UncertaintyContribution> contributions);

// Degrees of freedom as Student's t is taken for them: cut down to a whole number.
//
//   ν' = ⌊ν (1 + 1e-9)⌋
//
//   ν        effective degrees of freedom
//   Source   JCGM 100:2008 (GUM) G.4.1 (cut to the next lower integer); that what is whole but for rounding, by
//            1e-9 of itself, is whole is this project's choice
//   Valid    any ν; below 1 it is used as it is; infinite and NaN stay
//   Example  16.76 -> 16; three inputs alike with 5 each, 14.999999999999998 as computed -> 15
double whole_degrees_of_freedom(double dof);

}  // namespace driftwarden
