// SPDX-License-Identifier: MIT
#include "report/history_json.hpp"

#include "book/stamp_text.hpp"
#include "history/run_rule_names.hpp"
#include "report/json_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

struct Writer {
  JsonText& json;
  const TimeZone& zone;

  void text_or_null(const std::string& text) {
    if (text.empty()) {
      json.null();
    } else {
      json.value(text);
    }
  }
  void points(const Series& series) {
    json.key("points").begin_array();
    for (const SeriesPoint& point : series.points) {
      json.begin_object()
          .member("at", when_text(series, point.at, zone))
          .member("value", point.value)
          .member("n", point.n);
      json.member("s", point.s)
          .member("void", point.is_void)
          .member("expanded_uncertainty", point.expanded_uncertainty);
      json.member("from", point.from).member("point", to_text(point.kind)).end_object();
    }
    json.end_array();
  }

  void chart(const Series& series, const ControlChart& chart) {
    const auto at = [&](std::size_t point) { return when_text(series, series.points[point].at, zone); };
    json.begin_object().member("chart", to_text(chart.kind));
    json.key("phase")
        .begin_object()
        .member("from", at(chart.phase.first))
        .member("to", at(chart.phase.first + chart.phase.count - 1));
    json.key("after");
    text_or_null(chart.phase.reason);
    json.end_object();
    json.key("baseline").begin_object().member("from", at(chart.baseline_first)).member("to", at(chart.baseline_last));
    json.member("n", chart.baseline_n).member("provisional", chart.is_provisional()).end_object();
    json.member("centre", chart.centre)
        .member("sigma", chart.sigma)
        .member("lower", chart.lower)
        .member("upper", chart.upper);
    json.key("signals").begin_array();
    for (const ChartSignal& signal : chart.signals)
      json.begin_object().member("at", at(signal.point)).member("rule", signal.rule).end_object();
    json.end_array().end_object();
  }

  void trend(std::string_view key, const std::optional<Trend>& trend) {
    json.key(key);
    if (!trend) {
      json.null();
      return;
    }
    json.begin_object()
        .member("method", trend->method)
        .member("n", trend->n)
        .member("slope_per_day", trend->slope_per_day);
    json.member("low", trend->low)
        .member("high", trend->high)
        .member("p", trend->p)
        .member("resolved", trend->is_resolved)
        .end_object();
  }

  void crossing(const Series& series, const std::optional<Crossing>& crossing) {
    json.key("crossing");
    if (!crossing) {
      json.null();
      return;
    }
    const auto date = [&](double day) { return date_text(day_of(series, day, zone)); };
    json.begin_object().member("limit", crossing->limit).member("date", date(crossing->day));
    json.member("earliest", date(crossing->earliest)).member("latest", date(crossing->latest)).end_object();
  }

  void series(const SeriesHistory& history) {
    const Series& series = history.series;
    json.begin_object().member("series", series.name).member("unit", series.unit);
    points(series);
    json.key("tolerance");
    if (series.tolerance.is_stated()) {
      json.begin_object().member("lower", series.tolerance.lower).member("upper", series.tolerance.upper);
      json.member("source", series.tolerance.source).end_object();
    } else {
      json.null();
    }
    json.key("charts").begin_array();
    for (const ControlChart& made : history.charts) chart(series, made);
    json.end_array();
    trend("trend", history.forecast.trend);
    trend("trend_robust", history.forecast.robust);
    crossing(series, history.forecast.crossing);
    json.key("forecast");
    text_or_null(history.forecast.said);
    json.key("resemblance")
        .begin_object()
        .member("phi", history.resemblance.n == 0 ? missing : history.resemblance.phi);
    json.member("n", history.resemblance.n).member("of_kind", history.phi_of_kind).end_object();
    json.end_object();
  }

  void opinion(const IntervalOpinion& opinion) {
    json.begin_object().member("method", opinion.method).member("advice_days", opinion.advice_days);
    json.texts("from", opinion.from);
    json.texts("lacks", opinion.lacks);
    json.key("remark");
    text_or_null(opinion.remark);
    json.end_object();
  }

  void recommendation(const IntervalOpinion* opinion) {
    if (opinion == nullptr) {
      json.null();
      return;
    }
    json.begin_object().member("method", opinion->method).member("advice_days", opinion->advice_days);
    json.member("why", opinion->remark);
    json.texts("from", opinion->from);
    json.end_object();
  }
};

}  // namespace

std::string when_text(const Series& series, Moment at, const TimeZone& zone) {
  return series.is_by_day ? date_text(static_cast<Day>(at / seconds_a_day)) : local_text(at, zone);
}

std::string history_json(const Screening& screening, const std::vector<InstrumentHistory>& histories, Day as_of,
                         const ChartChoices& choices) {
  std::string text;
  JsonText json(text);
  Writer writer{json, screening.book().settings.zone};
  json.begin_object().member("as_of", date_text(as_of));
  json.key("run_rules").begin_array();
  for (const RunRule& rule : choices.rules) json.value(name_of(rule));
  json.end_array().member("points_between_false_signals", points_between_false_signals(choices.rules));
  json.key("instruments").begin_array();
  for (const InstrumentHistory& history : histories) {
    const Instrument& instrument = screening.book().instruments[history.instrument];
    json.begin_object().member("instrument", instrument.name).member("kind", to_text(instrument.kind));
    json.key("series").begin_array();
    for (const SeriesHistory& series : history.series) writer.series(series);
    json.end_array().key("interval").begin_array();
    for (const IntervalOpinion& opinion : history.interval) writer.opinion(opinion);
    json.end_array().key("recommended");
    writer.recommendation(recommended(history.interval));
    json.end_object();
  }
  json.end_array().member("cautions", cautions).end_object();
  text += '\n';
  return text;
}

}  // namespace driftwarden
