// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// How an input that is only known to lie within ± a half-width is spread inside it.
enum class DistributionShape { rectangular, triangular, arcsine };

// Standard uncertainty of a bounded input.
//
//   rectangular a/√3      triangular a/√6      arcsine (a cycling value) a/√2
//
//   a        half-width, any unit
//   Source   JCGM 100:2008 (GUM) 4.3.7 to 4.3.9; JCGM 101:2008 6.4.6
//   Valid    a ≥ 0
//   Example  rectangular ± 0.0005  ->  0.000288675
double standard_uncertainty(DistributionShape shape, double half_width);

}  // namespace driftwarden
