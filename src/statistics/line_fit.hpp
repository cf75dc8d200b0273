// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "statistics/bounds.hpp"

namespace driftwarden {

// A straight line through points, kept by the point it turns on, where height and slope are independent. The variance
// of the line at x is centre_variance + (x - centre_x)² · slope_variance.
struct LineFit {
  std::size_t n = 0;
  double dof = 0;  // n - 2, or n - 1 through a fixed point
  double centre_x = 0;
  double centre_y = 0;
  double slope = 0;
  double centre_variance = no_figure;
  double slope_variance = no_figure;
  double residual_s = no_figure;                // √(residual_squares / dof); NaN at dof 0
  double residual_squares = 0;                  // Σ(y - line)²
  double residual_variance_of_one = no_figure;  // of one new point about the line

  double at(double x) const { return centre_y + (x - centre_x) * slope; }
  double intercept() const { return at(0); }
  double slope_se() const;
  double slope_p() const;  // two-sided, against a slope of 0
};

// Ordinary least squares.
//
//   b1 = Σ(x - x̄)(y - ȳ) / Σ(x - x̄)²      b0 = ȳ - b1 x̄      s² = Σ(y - b0 - b1 x)² / (n - 2)
//
//   x, y     points; errors in y alone, all of one spread
//   Source   NIST/SEMATECH e-Handbook 4.1.4.1; NIST Statistical Reference Datasets, Norris
//   Valid    two or more different x, finite values; standard errors from three points on. Empty otherwise.
//   Example  Norris  ->  b0 -0.262323, b1 1.002117, s 0.884796
std::optional<LineFit> fit_line(std::span<const double> x, std::span<const double> y);

// Parallel lines: one slope for all points, and for each group of them a level of its own. The line returned is that of
// the last point's group.
//
//   b1 = Σ(x - x̄_g)(y - ȳ_g) / Σ(x - x̄_g)²      s² = Σ(y - ȳ_g - b1 (x - x̄_g))² / (n - G - 1)
//
//   x, y     points      x̄_g, ȳ_g  means of the point's group      G  number of groups
//   Source   analysis of covariance with a common slope, Snedecor and Cochran, Statistical Methods, chapter 18 (from
//            memory); the same as least squares with an indicator for each group, which the test holds it to
//   Valid    as fit_line, inside one group at least; with one group it is fit_line
//   Example  0 1 2 3 in two groups of two, y 1.0 1.4 3.1 3.3  ->  b1 0.3, at 3: 3.35
std::optional<LineFit> fit_parallel_lines(std::span<const double> x, std::span<const double> y,
                                          std::span<const std::size_t> groups);

// Least squares through the origin: a rate from steps, each step y over its own x (the drift since an adjustment over
// the time since).
//
//   b1 = Σxy / Σx²      s² = Σ(y - b1 x)² / (n - 1)
//
//   x, y     steps; y the change over x
//   Source   common practice
//   Valid    one or more x other than 0; errors of y alike at all x (not a random walk). Empty otherwise.
//   Example  0.42 0.53 0.38 0.07 over 12 each  ->  0.029167, s 0.19715
std::optional<LineFit> fit_through_origin(std::span<const double> x, std::span<const double> y);

}  // namespace driftwarden
