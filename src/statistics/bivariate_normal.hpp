// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// Owen's T: the probability of X > h and 0 < Y < aX for independent standard normal X and Y.
//
//   T(h, a) = 1/2π ∫_0^a e^(-h²(1 + x²)/2) / (1 + x²) dx
//
//   Source   D. B. Owen, Ann. Math. Stat. 27 (1956) 1075 (from memory; the tests hold it to closed forms and to SciPy)
//   Valid    any h and a, infinite ones included; absolute error below 1e-14
//   Example  T(0, 1) = 1/8
double owens_t(double h, double a);

// How two quantities are correlated: sine and cosine of one angle, for of a correlation near 1 the sine alone has the
// digits.
struct Correlation {
  double rho = 0;
  double sine = 1;  // √(1 - ρ²)
};

// Probability of X ≤ x and Y ≤ y for standard normal X and Y.
//
//   Φ₂(x, y; ρ) = (Φ(x) + Φ(y))/2 - T(x, (y - ρx)/(x√(1 - ρ²))) - T(y, (x - ρy)/(y√(1 - ρ²))) - δ
//
//   δ        0 where x and y lie on one side of 0, else 1/2
//   Source   Owen, as above
//   Valid    |ρ| < 1, the sine above 0; infinite x and y included; absolute error of some 1e-15 over the sine
//   Example  x = y = 0, ρ = 0.5  ->  1/3 (the orthant: 1/4 + arcsin ρ / 2π)
double bivariate_normal_cdf(double x, double y, const Correlation& correlation);

}  // namespace driftwarden
