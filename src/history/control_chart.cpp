// SPDX-License-Identifier: MIT
#include "history/control_chart.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <span>

#include "history/forecast.hpp"
#include "history/run_rule_names.hpp"
#include "statistics/cusum.hpp"
#include "statistics/ewma.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view beyond_limits = "beyond-limits";

// One phase being charted: its counted values, and which of them make the baseline.
struct PhaseView {
  const Series& series;
  const Phase& phase;
  std::vector<double> values;      // missing where void
  std::size_t baseline_begin = 0;  // among the values
  std::size_t baseline_end = 0;
  std::size_t baseline_n = 0;

  const SeriesPoint& point(std::size_t i) const { return series.points[phase.first + i]; }
  std::span<const double> baseline() const {
    return std::span(values).subspan(baseline_begin, baseline_end - baseline_begin);
  }
};

// The first counted points, at most so many, for which `is_asked` holds. Points are in order of time.
template <class IsAsked>
void choose_baseline(PhaseView& view, std::size_t most, IsAsked is_asked) {
  for (std::size_t i = 0; i < view.values.size() && view.baseline_n < most; ++i) {
    if (is_missing(view.values[i]) || !is_asked(view.point(i))) continue;
    if (view.baseline_n++ == 0) view.baseline_begin = i;
    view.baseline_end = i + 1;
  }
}

// Of the days chosen; where the phase has no point then, or none are chosen, the first points.
PhaseView view_of(const Series& series, const Phase& phase, const ChartChoices& choices, const TimeZone& zone) {
  PhaseView view{series, phase, {}, 0, 0, 0};
  for (std::size_t i = 0; i < phase.count; ++i) view.values.push_back(series.points[phase.first + i].counted());
  if (choices.baseline_from != no_day) {
    choose_baseline(view, phase.count, [&](const SeriesPoint& point) {
      const Day day = day_of(series, point.day(), zone);
      return day >= choices.baseline_from && day <= choices.baseline_to;
    });
  }
  if (view.baseline_n == 0) choose_baseline(view, choices.baseline, [](const SeriesPoint&) { return true; });
  return view;
}

ControlChart begun(ChartKind kind, const PhaseView& view) {
  ControlChart chart;
  chart.kind = kind;
  chart.phase = view.phase;
  chart.baseline_first = view.phase.first + view.baseline_begin;
  chart.baseline_last = view.phase.first + view.baseline_end - 1;
  chart.baseline_n = view.baseline_n;
  return chart;
}

void set_limits(ControlChart& chart, const ControlLimits& limits) {
  chart.centre = limits.centre;
  chart.sigma = limits.sigma;
  chart.lower = limits.lower;
  chart.upper = limits.upper;
}

void signal_beyond_limits(ControlChart& chart) {
  for (std::size_t i = 0; i < chart.values.size(); ++i) {
    const ChartValue& value = chart.values[i];
    if (value.value > value.upper || value.value < value.lower)
      chart.signals.push_back({chart.phase.first + i, std::string(beyond_limits)});
  }
}

ControlChart individuals_chart(const PhaseView& view, const ControlLimits& limits, std::span<const RunRule> rules) {
  ControlChart chart = begun(ChartKind::individuals, view);
  set_limits(chart, limits);
  std::vector<double> z;
  for (const double value : view.values) {
    chart.values.push_back({value, missing, limits.lower, limits.upper});
    z.push_back((value - limits.centre) / limits.sigma);
  }
  for (const RunSignal& signal : run_signals(rules, z))
    chart.signals.push_back({view.phase.first + signal.index, name_of(signal.rule)});
  return chart;
}

ControlChart moving_range_chart(const PhaseView& view, const ControlLimits& limits) {
  ControlChart chart = begun(ChartKind::moving_range, view);
  set_limits(chart, limits);
  const std::vector<double> ranges = moving_ranges(view.values);
  chart.values.assign(view.values.size(), {});
  for (std::size_t i = 0; i < ranges.size(); ++i)
    chart.values[i + 1] = {ranges[i], missing, limits.lower, limits.upper};
  signal_beyond_limits(chart);
  return chart;
}

ControlChart ewma_chart(const PhaseView& view, const ControlLimits& limits, double target,
                        const ChartChoices& choices) {
  ControlChart chart = begun(ChartKind::ewma, view);
  const double half = choices.ewma_width * limits.sigma * std::sqrt(choices.ewma_lambda / (2 - choices.ewma_lambda));
  set_limits(chart, {target, limits.sigma, target - half, target + half});
  const std::vector<EwmaPoint> points =
      ewma(view.values, {target, limits.sigma, choices.ewma_lambda, choices.ewma_width});
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool counts = !is_missing(view.values[i]);
    chart.values.push_back({counts ? points[i].average : missing, missing, points[i].lower, points[i].upper});
    if (points[i].is_signal) chart.signals.push_back({view.phase.first + i, std::string(beyond_limits)});
  }
  return chart;
}

ControlChart cusum_chart(const PhaseView& view, const ControlLimits& limits, double target,
                         const ChartChoices& choices) {
  ControlChart chart = begun(ChartKind::cusum, view);
  const double h = choices.cusum_h * limits.sigma;
  set_limits(chart, {target, limits.sigma, -h, h});
  const std::vector<CusumPoint> points =
      cusum(view.values, cusum_design_in_sigmas(target, limits.sigma, choices.cusum_k, choices.cusum_h));
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool counts = !is_missing(view.values[i]);
    chart.values.push_back({counts ? points[i].high : missing, counts ? -points[i].low : missing, -h, h});
    if (points[i].is_high_signal) chart.signals.push_back({view.phase.first + i, "upper-sum"});
    if (points[i].is_low_signal) chart.signals.push_back({view.phase.first + i, "lower-sum"});
  }
  return chart;
}

bool is_set(const SeriesPoint& point) { return point.n >= 2 && !is_missing(point.s) && !is_missing(point.counted()); }

std::vector<MeanAndSpread> sets_of(const PhaseView& view) {
  std::vector<MeanAndSpread> sets;
  for (std::size_t i = view.baseline_begin; i < view.baseline_end; ++i) {
    const SeriesPoint& point = view.point(i);
    if (!is_set(point)) continue;
    MeanAndSpread set;
    set.n = point.n;
    set.mean = point.value;
    set.s = point.s;
    sets.push_back(set);
  }
  return sets;
}

// The size that most sets have; of several the larger.
std::size_t usual_size(const std::vector<MeanAndSpread>& sets) {
  std::map<std::size_t, std::size_t> count;
  for (const MeanAndSpread& set : sets) ++count[set.n];
  const auto most =
      std::max_element(count.begin(), count.end(), [](const auto& a, const auto& b) { return a.second <= b.second; });
  return most->first;
}

ControlChart set_chart(ChartKind kind, const PhaseView& view, const SpreadBaseline& baseline, std::size_t size) {
  ControlChart chart = begun(kind, view);
  chart.baseline_n = baseline.sets;
  const auto limits_of = [&](std::size_t n) {
    const ControlCharts charts = mean_and_s_limits(baseline, n);
    return kind == ChartKind::mean ? charts.location : charts.spread;
  };
  set_limits(chart, limits_of(size));
  for (std::size_t i = 0; i < view.phase.count; ++i) {
    const SeriesPoint& point = view.point(i);
    if (!is_set(point)) {
      chart.values.push_back({});
      continue;
    }
    const ControlLimits limits = limits_of(point.n);
    chart.values.push_back({kind == ChartKind::mean ? point.value : point.s, missing, limits.lower, limits.upper});
  }
  signal_beyond_limits(chart);
  return chart;
}

void add_set_charts(std::vector<ControlChart>& charts, const PhaseView& view, std::size_t fewest) {
  const std::vector<MeanAndSpread> sets = sets_of(view);
  const std::optional<SpreadBaseline> baseline = spread_baseline(sets);
  if (!baseline || sets.size() < fewest) return;
  charts.push_back(set_chart(ChartKind::mean, view, *baseline, usual_size(sets)));
  charts.push_back(set_chart(ChartKind::spread, view, *baseline, usual_size(sets)));
}

}  // namespace

std::string_view to_text(ChartKind kind) {
  switch (kind) {
    case ChartKind::individuals:
      return "individuals";
    case ChartKind::moving_range:
      return "moving-range";
    case ChartKind::mean:
      return "mean";
    case ChartKind::spread:
      return "spread";
    case ChartKind::ewma:
      return "ewma";
    case ChartKind::cusum:
      return "cusum";
  }
  return "";
}

std::vector<ControlChart> control_charts(const Series& series, const ChartChoices& choices, const TimeZone& zone) {
  std::vector<ControlChart> charts;
  if (!series.is_charted) return charts;
  for (const Phase& phase : series.phases) {
    const PhaseView view = view_of(series, phase, choices, zone);
    if (view.baseline_n < choices.fewest) continue;
    const std::optional<ControlCharts> limits = individuals_limits(view.baseline());
    if (!limits) continue;
    const double target = series.takes_target && choices.target ? *choices.target : limits->location.centre;
    charts.push_back(individuals_chart(view, limits->location, choices.rules));
    charts.push_back(moving_range_chart(view, limits->spread));
    add_set_charts(charts, view, choices.fewest);
    charts.push_back(ewma_chart(view, limits->location, target, choices));
    charts.push_back(cusum_chart(view, limits->location, target, choices));
  }
  return charts;
}

double points_between_false_signals(std::span<const RunRule> rules) {
  double sum = 0;
  for (const RunRule& rule : rules) sum += false_signal_probability(rule);
  return 1 / sum;
}

}  // namespace driftwarden
