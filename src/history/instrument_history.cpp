// SPDX-License-Identifier: MIT
#include "driftwarden/history/instrument_history.hpp"

#include <algorithm>
#include <cmath>

#include "driftwarden/history/certificate_series.hpp"
#include "driftwarden/history/pump_series.hpp"
#include "driftwarden/history/service_starts.hpp"

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

std::vector<InstrumentHistory> histories_of(const Screening& screening, const std::vector<Row>& instruments, Day as_of,
                                            const ChartChoices& choices) {
  const UseLog log = use_log_of(screening, as_of);
  const std::vector<Comparison> comparisons = comparisons_from(log);
  std::vector<InstrumentHistory> histories;
  for (const Row row : instruments) {
    InstrumentHistory history;
    history.instrument = row;
    const double interval = interval_in_force(screening.book(), row, as_of);
    for (Series& series : series_of(screening, log, comparisons, row, as_of)) {
      SeriesHistory made{std::move(series), {}, {}};
      made.charts = control_charts(made.series, choices, screening.book().settings.zone);
      made.forecast = forecast_of(made.series, is_missing(interval) ? 0 : interval, screening.book().settings.zone);
      history.series.push_back(std::move(made));
    }
    const SeriesHistory* as_found = history.find("as-found-error");
    const bool is_calibrated = screening.book().instruments[row].kind != InstrumentKind::pump || as_found != nullptr;
    if (is_calibrated) {
      history.interval = interval_opinions({screening, row, as_of, as_found == nullptr ? nullptr : &as_found->series,
                                            as_found == nullptr ? nullptr : &as_found->forecast, comparisons});
    }
    history.urgency = urgency_of(history.series);
    histories.push_back(std::move(history));
  }
  return histories;
}

}  // namespace driftwarden
