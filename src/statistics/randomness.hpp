// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>

#include "statistics/bounds.hpp"

namespace driftwarden {

struct RunsTest {
  std::size_t above = 0;
  std::size_t below = 0;
  std::size_t runs = 0;
  double z = no_figure;
  double p = no_figure;  // two-sided
};

// Is the order of values above and below a cut random?
//
//   z = (R - μ)/√v,   μ = 2 n₁n₂/n + 1,   v = 2 n₁n₂(2 n₁n₂ - n) / (n²(n - 1))
//
//   R        runs of values on one side      n₁, n₂  values above and below      n  n₁ + n₂
//   Source   Wald and Wolfowitz, Ann. Math. Stat. 11 (1940) 147; NIST/SEMATECH e-Handbook 1.3.5.13
//   Valid    n₁, n₂ ≥ 10, below that a guide; values on the cut and missing ones (NaN) are passed over. NaN if all lie
//            on one side.
//   Example  11 above, 9 below, 11 runs  ->  z 0.0464, p 0.963
RunsTest runs_test(std::span<const double> values, double cut);

// Squared steps over squared deviations.
//
//   V = Σ(x_{i+1} - x_i)² / Σ(x_i - x̄)²
//
//   x        values in order of time
//   Source   von Neumann, Ann. Math. Stat. 12 (1941) 367
//   Valid    two or more values, not all equal; about 2 if independent, less if neighbours resemble each other
//   Example  the ten flow rates of NIST/SEMATECH e-Handbook 6.3.2.2  ->  1.0946
double von_neumann_ratio(std::span<const double> values);

}  // namespace driftwarden
