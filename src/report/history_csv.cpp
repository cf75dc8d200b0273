// SPDX-License-Identifier: MIT
#include "report/history_csv.hpp"

#include "report/csv_text.hpp"
#include "report/history_json.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view headings =
    "instrument,kind,series,at,value,unit,n,s,expanded_uncertainty,void,from,point,phase,"
    "tolerance_lower,tolerance_upper,centre,lower,upper,moving_range,ewma,upper_sum,lower_sum,signals\n";

// What the charts of a series say of one point.
struct PointOnCharts {
  std::size_t phase = 1;
  double centre = missing;
  double lower = missing;
  double upper = missing;
  double moving_range = missing;
  double ewma = missing;
  double upper_sum = missing;
  double lower_sum = missing;
  std::string signals;
};

void note(PointOnCharts& point, const ControlChart& chart, const ChartValue& value) {
  switch (chart.kind) {
    case ChartKind::individuals:
      point.centre = chart.centre;
      point.lower = value.lower;
      point.upper = value.upper;
      return;
    case ChartKind::moving_range:
      point.moving_range = value.value;
      return;
    case ChartKind::ewma:
      point.ewma = value.value;
      return;
    case ChartKind::cusum:
      point.upper_sum = value.value;
      point.lower_sum = value.second;
      return;
    case ChartKind::mean:
    case ChartKind::spread:
      return;
  }
}

std::vector<PointOnCharts> points_on_charts(const SeriesHistory& history) {
  std::vector<PointOnCharts> points(history.series.points.size());
  for (std::size_t phase = 0; phase < history.series.phases.size(); ++phase) {
    const Phase& covered = history.series.phases[phase];
    for (std::size_t i = 0; i < covered.count; ++i) points[covered.first + i].phase = phase + 1;
  }
  for (const ControlChart& chart : history.charts) {
    for (std::size_t i = 0; i < chart.values.size(); ++i) note(points[chart.phase.first + i], chart, chart.values[i]);
    for (const ChartSignal& signal : chart.signals) {
      std::string& said = points[signal.point].signals;
      if (!said.empty()) said += ';';
      said += std::string(to_text(chart.kind)) + ":" + signal.rule;
    }
  }
  return points;
}

void append_figures(std::string& out, std::initializer_list<double> figures) {
  for (const double figure : figures) {
    out += ',';
    append_figure(out, figure);
  }
}

void append_series(std::string& out, const Instrument& instrument, const SeriesHistory& history, const TimeZone& zone) {
  const std::vector<PointOnCharts> on_charts = points_on_charts(history);
  const Series& series = history.series;
  for (std::size_t i = 0; i < series.points.size(); ++i) {
    const SeriesPoint& point = series.points[i];
    append_csv(out, instrument.name);
    out += ',';
    out += to_text(instrument.kind);
    out += ',';
    append_csv(out, series.name);
    out += ',' + when_text(series, point.at, zone);
    append_figures(out, {point.value});
    out += ',' + series.unit + ',' + std::to_string(point.n);
    append_figures(out, {point.s, point.expanded_uncertainty});
    out += point.is_void ? ",yes," : ",no,";
    append_csv(out, point.from);
    out += ',' + std::string(to_text(point.kind)) + ',' + std::to_string(on_charts[i].phase);
    append_figures(out, {series.tolerance.lower, series.tolerance.upper, on_charts[i].centre, on_charts[i].lower,
                         on_charts[i].upper, on_charts[i].moving_range, on_charts[i].ewma, on_charts[i].upper_sum,
                         on_charts[i].lower_sum});
    out += ',' + on_charts[i].signals + '\n';
  }
}

}  // namespace

std::string history_csv(const Screening& screening, const std::vector<InstrumentHistory>& histories) {
  std::string out(headings);
  for (const InstrumentHistory& history : histories) {
    const Instrument& instrument = screening.book().instruments[history.instrument];
    for (const SeriesHistory& series : history.series)
      append_series(out, instrument, series, screening.book().settings.zone);
  }
  return out;
}

}  // namespace driftwarden
