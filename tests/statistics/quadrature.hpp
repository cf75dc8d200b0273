// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <numbers>

namespace driftwarden::test {

inline double normal_density(double z) { return std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi); }

// By the standard library's erfc, which the program's own is not made from.
inline double normal_chance_below(double z) { return std::erfc(-z / std::numbers::sqrt2) / 2; }

// Simpson's rule. `steps` is even.
template <class Function>
double integral(Function f, double from, double to, int steps) {
  const double h = (to - from) / steps;
  double sum = f(from) + f(to);
  for (int i = 1; i < steps; ++i) sum += f(from + i * h) * (i % 2 == 1 ? 4 : 2);
  return sum * h / 3;
}

// Equally weighted points: exact to rounding for a smooth function that has died away at both ends.
template <class Function>
double integral_of_a_hill(Function f, double from, double to, int steps) {
  const double h = (to - from) / steps;
  double sum = 0;
  for (int i = 0; i <= steps; ++i) sum += f(from + i * h);
  return sum * h;
}

}  // namespace driftwarden::test
