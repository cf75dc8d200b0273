// SPDX-License-Identifier: MIT
#include "history/instrument_history.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "history/certificate_series.hpp"
#include "history/check_series.hpp"
#include "history/pump_series.hpp"
#include "history/service_starts.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t recent_points = 5;

bool has_recent_signal(const SeriesHistory& history) {
  for (const ControlChart& chart : history.charts) {
    if (chart.kind != ChartKind::individuals) continue;
    for (const ChartSignal& signal : chart.signals) {
      if (signal.point + recent_points >= history.series.points.size()) return true;
    }
  }
  return false;
}

// 0 in the middle of the tolerance, 1 on its edge.
double share_of_tolerance(const Series& series, double value) {
  const Tolerance& tolerance = series.tolerance;
  if (value >= 0 && tolerance.upper > 0) return value / tolerance.upper;
  if (value < 0 && tolerance.lower < 0) return value / tolerance.lower;
  return 0;
}

}  // namespace

std::string lacks_limits(const SeriesHistory& history, std::size_t fewest) {
  const Series& series = history.series;
  if (!series.is_charted || series.phases.empty()) return {};
  const Phase& last = series.phases.back();
  if (!history.charts.empty() && history.charts.back().phase.first == last.first) return {};
  std::size_t n = 0;
  for (std::size_t i = last.first; i < last.first + last.count; ++i) n += series.points[i].is_void ? 0U : 1U;
  if (n >= fewest) return "the points they would come from are too few, or all alike";
  const std::string after = last.reason.empty() ? "" : " since '" + last.reason + "'";
  return counted(n, "point", "points") + after + (n == 1 ? " is" : " are") + " too few to say; it takes " +
         std::to_string(fewest);
}

double urgency_of(const SeriesHistory& history) {
  const SeriesPoint* last = last_counted(history.series);
  if (last == nullptr || !history.series.is_charted) return 0;
  const bool is_a_difference = history.series.unit != "L/min";  // and so 0 where all is well
  const double share = is_a_difference ? share_of_tolerance(history.series, last->value) : 0;
  if (share > 1 + 1e-9) return 3 + std::min(share / 100, 0.99);
  if (history.forecast.crossing) {
    const double ahead = std::max(0.0, history.forecast.crossing->day - history.forecast.last_day);
    return 2 + 1 / (1 + ahead / 30);
  }
  return (has_recent_signal(history) ? 1 : 0) + 0.99 * std::min(share, 1.0);
}

namespace {

std::vector<Series> series_of(const Screening& screening, const UseLog& log, const std::vector<Comparison>& comparisons,
                              Row row, Day as_of) {
  const Instrument& instrument = screening.book().instruments[row];
  const ServiceStarts starts = service_starts(screening.book(), row, as_of);
  std::vector<Series> all;
  if (instrument.kind == InstrumentKind::pump) all = pump_series(screening, log, row, starts.by_time);
  for (Series& series : certificate_series(screening, row, as_of, starts.by_day)) all.push_back(std::move(series));
  if (instrument.kind == InstrumentKind::calibrator) {
    for (Series& series : comparison_series(screening, comparisons, row, starts.by_time))
      all.push_back(std::move(series));
  }
  for (Series& series : check_series(screening, row, as_of, starts.by_time)) all.push_back(std::move(series));
  for (Series& series : due_series(screening, row, as_of)) all.push_back(std::move(series));
  return all;
}

}  // namespace

const SeriesHistory* InstrumentHistory::find(std::string_view name) const {
  for (const SeriesHistory& history : series) {
    if (history.series.name == name) return &history;
  }
  return nullptr;
}

double urgency_of(const std::vector<SeriesHistory>& series) {
  double urgency = 0;
  for (const SeriesHistory& history : series) urgency = std::max(urgency, urgency_of(history));
  return urgency;
}

void ResemblanceByName::add(const Series& series) {
  if (series.is_charted) pooled_[series.name].add(resemblance_of(series));
}

double ResemblanceByName::of_kind(const Series& series) const {
  const auto found = pooled_.find(series.name);
  return found == pooled_.end() ? 0 : found->second.of_all().cautious();
}

SeriesHistory reckoned(Series series, const ResemblanceByName& of_all, double reach_days, const TimeZone& zone) {
  SeriesHistory made{std::move(series), {}, {}, {}, 0};
  if (!made.series.is_charted) return made;
  made.resemblance = resemblance_of(made.series);
  made.phi_of_kind = of_all.of_kind(made.series);
  const double phi = std::max(made.phi_of_kind, made.resemblance.at_least_zero());
  made.forecast = forecast_of(made.series, reach_days, zone, phi);
  return made;
}

std::vector<InstrumentHistory> histories_of(const Screening& screening, const std::vector<Row>& instruments, Day as_of,
                                            const ChartChoices& choices) {
  const UseLog log = use_log_of(screening, as_of);
  const std::vector<Comparison> comparisons = comparisons_from(log);
  const TimeZone& zone = screening.book().settings.zone;
  std::vector<std::vector<Series>> of_all;
  for (Row row = 0; row < screening.book().instruments.size(); ++row)
    of_all.push_back(series_of(screening, log, comparisons, row, as_of));
  ResemblanceByName resemblance;
  for (const std::vector<Series>& all : of_all) {
    for (const Series& series : all) resemblance.add(series);
  }
  std::vector<InstrumentHistory> histories;
  for (const Row row : instruments) {
    InstrumentHistory history;
    history.instrument = row;
    const double interval = interval_in_force(screening.book(), row, as_of);
    for (Series& series : of_all[row]) {
      history.series.push_back(reckoned(std::move(series), resemblance, is_missing(interval) ? 0 : interval, zone));
      history.series.back().charts = control_charts(history.series.back().series, choices, zone);
    }
    const SeriesHistory* as_found = history.find("as-found-error");
    const bool is_calibrated = screening.book().instruments[row].kind != InstrumentKind::pump || as_found != nullptr;
    if (is_calibrated) {
      history.interval = interval_opinions({screening, row, as_of, as_found == nullptr ? nullptr : &as_found->series,
                                            as_found == nullptr ? nullptr : &as_found->forecast, comparisons, log});
    }
    history.urgency = urgency_of(history.series);
    histories.push_back(std::move(history));
  }
  return histories;
}

}  // namespace driftwarden
