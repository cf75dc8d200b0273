// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "book/time_zone.hpp"
#include "history/chart_choices.hpp"
#include "history/series.hpp"

namespace driftwarden {

enum class ChartKind : std::uint8_t { individuals, moving_range, mean, spread, ewma, cusum };

std::string_view to_text(ChartKind kind);

struct ChartSignal {
  std::size_t point = 0;  // of the series
  std::string rule;       // a run rule's name; of the cumulative sums "upper-sum", "lower-sum"
};

// What a chart plots over one point of its series. Of the cumulative sums the upper one, and the lower one below 0.
struct ChartValue {
  double value = missing;
  double second = missing;  // the lower cumulative sum
  double lower = missing;   // limits at this point
  double upper = missing;
};

// One phase of one series on a control chart.
struct ControlChart {
  ChartKind kind = ChartKind::individuals;
  Phase phase;
  std::size_t baseline_first = 0;  // points of the series; void ones among them don't count
  std::size_t baseline_last = 0;
  std::size_t baseline_n = 0;
  double centre = missing;
  double sigma = missing;  // of one plotted value; of ewma and cusum, of one point of the series
  double lower = missing;  // of many points (ewma), of the usual size of set (mean, spread); of cusum -h, h
  double upper = missing;
  std::vector<ChartValue> values;  // one a point of the phase
  std::vector<ChartSignal> signals;

  bool is_provisional() const { return baseline_n < settled_baseline; }
};

// The charts of a series, phase by phase: individuals, moving-range, mean and spread (where the points are sets of
// replicates), ewma, cusum. A phase whose baseline has no spread, or fewer than two points, has none. Run rules are
// held to the individuals; on the others a point beyond the limits is the only signal, for their points lean on one
// another.
std::vector<ControlChart> control_charts(const Series& series, const ChartChoices& choices,
                                         const TimeZone& zone = TimeZone::utc());

// Of how many independent normal points one is a signal, were no point a signal of two rules: 1 / Σ p. With several
// rules the true figure is a little higher; and until the first signal it takes longer still, for a pattern that goes
// on signals at every further point.
double points_between_false_signals(std::span<const RunRule> rules);

}  // namespace driftwarden
