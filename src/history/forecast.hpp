// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "book/time_zone.hpp"
#include "history/series.hpp"
#include "statistics/limit_crossing.hpp"
#include "statistics/resemblance.hpp"

namespace driftwarden {

// Fewer points than this can't show a trend at 5 % (see mann_kendall), so none is called one.
inline constexpr std::size_t fewest_points_of_a_trend = 5;
inline constexpr double trend_coverage = 0.95;

// How fast a series moves.
struct Trend {
  std::string method;  // "least-squares", "steps-between-calibrations", "theil-sen"
  std::size_t n = 0;
  double slope_per_day = missing;
  double low = missing;  // with 95 % between
  double high = missing;
  double p = missing;  // two-sided, that a series without trend would look like this; theil-sen: of Mann and Kendall
  bool is_resolved = false;  // the slope can be told from 0; theil-sen: by its interval and by p
};

// When a tolerance is reached if nothing changes.
struct Crossing {
  double limit = missing;
  double day = missing;  // days since 1970; of the line
  double earliest = missing;
  double latest = missing;
};

struct Forecast {
  std::optional<Trend> trend;   // of the last phase; empty below two points
  std::optional<Trend> robust;  // of the points read like the last one; empty where the trend is of steps
  // The line, over days less `origin`; its height at x is line->at(x) + base.
  std::optional<LineFit> line;
  double origin = 0;
  double base = 0;
  double first_day = 0;  // of the points behind it
  double last_day = 0;
  double reach_days = 0;   // how far beyond the last point anything is said
  std::size_t levels = 1;  // of the line: one for each calibrator and certificate that the points were read with
  std::optional<Crossing> crossing;
  std::string said;  // in words: what is to be expected, or why nothing is

  double at(double day) const { return base + line->at(day - origin); }
  Bounds band_at(double day) const;  // for one more result, 95 %
};

// Trend of the last phase, and when its tolerance would be crossed. No line leans across a change of calibrator or
// certificate: points read alike have a level of their own, and the slope is taken inside those levels. A crossing is
// given only where the trend is resolved, moves towards a stated end of the tolerance, and its band meets that within
// reach: the larger of the time the points span and `reach_days` from the last point. The line's own day may lie
// beyond. An instrument adjusted between its points is fitted by its steps from calibration to calibration, through no
// change in no time; then the forecast starts from where it was left. Days in words are the zone's. Points that
// resemble each other by `phi` tell less: see `resembling`.
Forecast forecast_of(const Series& series, double reach_days, const TimeZone& zone = TimeZone::utc(), double phi = 0);

// How the counted points of the last phase resemble each other, about their line. Nothing of calibrations, which are
// few and months apart: they are taken for independent.
Resemblance resemblance_of(const Series& series);

// The calendar day of a figure in days since 1970: the zone's, or of a series by day the day itself.
Day day_of(const Series& series, double day, const TimeZone& zone);

}  // namespace driftwarden
