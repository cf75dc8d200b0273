// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "statistics/bounds.hpp"
#include "statistics/mean_and_spread.hpp"

namespace driftwarden {

// Limits taken from fewer points than this are to be called provisional (common practice: 20 to 25).
inline constexpr std::size_t settled_baseline = 20;

struct ControlLimits {
  double centre = no_figure;
  double sigma = no_figure;  // of one plotted point; z = (point - centre) / sigma
  double lower = no_figure;
  double upper = no_figure;
};

// A chart of values or means and the chart of their spread that belongs to it. No limits are given, rather than limits
// of no width, where the baseline has no spread beyond rounding_noise (a coarse display).
struct ControlCharts {
  ControlLimits location;
  ControlLimits spread;
  std::size_t baseline_points = 0;

  bool is_provisional() const { return baseline_points < settled_baseline; }
};

// Which average of the moving ranges stands for the spread. The median is not misled by a few jumps.
enum class MovingRangeAverage { mean, median };

// |x_i - x_{i-1}|, one fewer than the values. NaN (missing) beside a NaN: a gap is not bridged.
std::vector<double> moving_ranges(std::span<const double> values);

// Limits for single values and their moving ranges.
//
//   x̄ ± 3 MR̄/d2(2)      MR: centre MR̄, upper limit D4(2) MR̄, lower 0
//
//   MR̄       mean moving range; or from the median: σ = median(MR) / 0.953873
//   Source   NIST/SEMATECH e-Handbook 6.3.2.2; 0.953873 = √2 Φ⁻¹(0.75)
//   Valid    two or more neighbours; values in order of time, nearly independent. NaN stands for a missing value.
//   Example  the handbook's ten flow rates  ->  50.81, limits 45.8176 and 55.8024 (it prints 45.8159, 55.8041:
//   d2 1.128)
std::optional<ControlCharts> individuals_limits(std::span<const double> baseline,
                                                MovingRangeAverage average = MovingRangeAverage::mean);

// What limits for means and s are made of.
struct SpreadBaseline {
  double centre = no_figure;
  double s = no_figure;
  std::size_t sets = 0;
};

// Grand mean and s of sets: plain means for sets of one size; weighted and pooled (ν = n_i - 1) for sets that differ.
// Empty for no set of two or more, or no spread.
std::optional<SpreadBaseline> spread_baseline(std::span<const MeanAndSpread> sets);

// Limits for the mean and s of a set of n.
//
//   x̄̄ ± A3(n) s̄      s: centre s̄, limits B3(n) s̄ and B4(n) s̄
//
//   s̄        s of the baseline
//   Source   NIST/SEMATECH e-Handbook 6.3.2.1
//   Valid    n ≥ 2; sets that vary among themselves no more than within. Replicate readings of one day don't: then
//            use individuals_limits on the means
//   Example  invented: 10 sets of 3 with x̄̄ 2.0106333, s̄ 0.00137976, n 3  ->  2.0079367 and 2.0133299
ControlCharts mean_and_s_limits(const SpreadBaseline& baseline, std::size_t n);

}  // namespace driftwarden
