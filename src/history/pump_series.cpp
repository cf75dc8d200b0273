// SPDX-License-Identifier: MIT
#include "history/pump_series.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace driftwarden {
namespace {

constexpr double minutes_an_hour = 60;

std::vector<const PumpCheck*> pre_checks(const UseLog& log, Row pump) {
  std::vector<const PumpCheck*> checks;
  for (const PumpCheck& check : log.checks_of(pump)) {
    const bool is_told = check.stage == Stage::pre || check.sample == no_row;
    if (is_told && !is_missing(check.flow_l_min)) checks.push_back(&check);
  }
  return checks;
}

// A check as a point, its figures times a factor (1, or 100 over the nominal flow).
SeriesPoint point_from(const Screening& screening, const PumpCheck& check, double value, double factor) {
  return {check.first,
          value,
          check.n,
          factor * check.s_l_min,
          factor * check.expanded_uncertainty_l_min,
          check.is_void,
          name_of_sample(screening, check.sample),
          check.calibrator,
          no_row,
          check.sample == no_row ? PointKind::bench : PointKind::sample,
          check.certificate};
}

// The nominal flow where it is one and the same throughout.
double one_nominal(const std::vector<const PumpCheck*>& checks) {
  double nominal = missing;
  for (const PumpCheck* check : checks) {
    if (is_missing(check->nominal_l_min) || (!is_missing(nominal) && nominal != check->nominal_l_min)) return missing;
    nominal = check->nominal_l_min;
  }
  return nominal;
}

Series pre_flow(const Screening& screening, const std::vector<const PumpCheck*>& checks, const Tolerance& tolerance) {
  Series series = empty_series("pre-flow", "Pre flow", "L/min", "actual, at the conditions of the reading");
  series.takes_target = true;
  for (const PumpCheck* check : checks) series.points.push_back(point_from(screening, *check, check->flow_l_min, 1));
  const double nominal = one_nominal(checks);
  if (!is_missing(nominal) && tolerance.is_stated()) {
    series.tolerance = {nominal * (1 + tolerance.lower / 100), nominal * (1 + tolerance.upper / 100), tolerance.source};
  }
  return series;
}

Series pre_deviation(const Screening& screening, const std::vector<const PumpCheck*>& checks,
                     const Tolerance& tolerance) {
  Series series =
      empty_series("pre-flow-deviation", "Pre flow, from nominal", "%", "actual, at the conditions of the reading");
  for (const PumpCheck* check : checks) {
    if (!(check->nominal_l_min > 0)) continue;
    const double percent = 100 / check->nominal_l_min;
    series.points.push_back(
        point_from(screening, *check, percent * (check->flow_l_min - check->nominal_l_min), percent));
  }
  series.tolerance = tolerance;
  return series;
}

Series drift_of_uses(const Screening& screening, const UseLog& log, Row pump) {
  Series series = empty_series("drift", "Drift per use", "%");
  for (const PumpUse& use : log.uses_of(pump)) {
    if (is_missing(use.drift)) continue;
    series.points.push_back({use.stopped, 100 * use.drift, use.n, missing, missing, use.is_void,
                             name_of_sample(screening, use.sample), use.calibrator, use.calibrator_after,
                             PointKind::sample, use.certificate, use.certificate_after});
  }
  series.tolerance = log.tolerances[pump].drift;
  return series;
}

// How far the flow moved, whichever way: a pump that wanders to and fro has no trend but this one.
Series drift_size(const Series& drift) {
  Series series = empty_series("drift-size", "Size of the drift", "%");
  for (SeriesPoint point : drift.points) {
    point.value = std::fabs(point.value);
    series.points.push_back(point);
  }
  const double narrower = std::min(std::fabs(drift.tolerance.lower), drift.tolerance.upper);
  if (drift.tolerance.is_stated()) series.tolerance = {missing, narrower, drift.tolerance.source};
  return series;
}

// Hours begin anew at each phase: that is when something was done to the pump.
Series running_hours(const Screening& screening, const UseLog& log, Row pump, std::vector<PhaseStart> starts) {
  Series series = empty_series("running-hours", "Running hours since service", "h");
  series.is_charted = false;
  std::sort(starts.begin(), starts.end(), [](const PhaseStart& a, const PhaseStart& b) { return a.at < b.at; });
  auto service = starts.begin();
  double hours = 0;
  for (const PumpUse& use : log.uses_of(pump)) {
    if (is_missing(use.minutes)) continue;
    for (; service != starts.end() && service->at <= use.started; ++service) hours = 0;
    hours += use.minutes / minutes_an_hour;
    series.points.push_back({use.stopped, hours, 1, missing, missing, false, name_of_sample(screening, use.sample)});
  }
  return series;
}

}  // namespace

std::vector<Series> pump_series(const Screening& screening, const UseLog& log, Row pump,
                                const std::vector<PhaseStart>& starts) {
  const std::vector<const PumpCheck*> checks = pre_checks(log, pump);
  const PumpTolerances& tolerances = log.tolerances[pump];
  std::vector<Series> all;
  all.push_back(pre_flow(screening, checks, tolerances.deviation));
  all.push_back(pre_deviation(screening, checks, tolerances.deviation));
  all.push_back(drift_of_uses(screening, log, pump));
  all.push_back(drift_size(all.back()));
  all.push_back(running_hours(screening, log, pump, starts));
  std::erase_if(all, [](const Series& series) { return series.points.empty(); });
  for (Series& series : all) cut_into_phases(series, starts);
  return all;
}

}  // namespace driftwarden
