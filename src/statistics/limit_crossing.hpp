// SPDX-License-Identifier: MIT
#pragma once

#include "statistics/bounds.hpp"
#include "statistics/line_fit.hpp"

namespace driftwarden {

// How wide a band about a line is: factor · √(extra_variance + variance of the line).
struct Band {
  double factor = no_figure;
  double extra_variance = 0;
};

// The band that holds the mean of `new_results` more results, with a share `coverage` between its two edges. One edge
// alone is passed half as often: a one-sided 95 % bound is the band of 0.90.
Band prediction_band(const LineFit& line, double coverage, double new_results = 1);

// The edges of a band at x.
//
//   b0 + b1 x ± q · √( v + var(b0 + b1 x) )
//
//   q, v     the band's factor and extra variance
//   Source   NIST/SEMATECH e-Handbook 4.5.1
//   Valid    the model of the fit; NaN where the fit has no standard errors
//   Example  0.05 0.21 0.30 0.52 0.61 0.83 at 0 12 24 37 49 60: at 72, 95 %  ->  0.79878 to 1.08591
Bounds band_at(const LineFit& line, const Band& band, double x);

// Where a line meets a limit.
struct LimitCrossing {
  double x = no_figure;         // of the line itself; NaN for a slope of 0
  bool is_bounded = false;      // false: the slope can't be told from 0 and the band never has to meet the limit
  double earliest = no_figure;  // where the band's first and second edge meet the limit
  double latest = no_figure;
};

// Where a line and its band meet a limit.
//
//   (T - ȳ - b1 τ)² = q²·(v + var(ȳ) + τ² var(b1)),   τ = x - x̄;   A τ² + B τ + C = 0 with
//   A = b1² - q² var(b1)      B = -2 b1 (T - ȳ)      C = (T - ȳ)² - q² (v + var(ȳ))
//
//   T        limit      x̄, ȳ  point on which the line turns      q, v  the band's factor and extra variance
//   Source   inversion of the band, as in Draper and Smith, Applied Regression Analysis, "inverse regression" (from
//            memory); derived and checked here against the band's edges
//   Valid    A > 0; at A ≤ 0 there is no finite bound and none is given. Also roots before the first point are given:
//            whether a limit lies ahead is for the caller.
//   Example  the six points above, limit 1.0, 95 % prediction  ->  76.599, earliest 65.746, latest 90.089
LimitCrossing limit_crossing(const LineFit& line, double limit, const Band& band);

}  // namespace driftwarden
