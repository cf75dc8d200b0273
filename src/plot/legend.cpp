// SPDX-License-Identifier: MIT
#include "plot/legend.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "history/heed.hpp"
#include "history/run_rule_names.hpp"
#include "plot/gnuplot_text.hpp"

namespace driftwarden {
namespace {

using Entry = Legend::Entry;

Entry of_mark(std::string text, const MarkStyle& mark) { return {std::move(text), mark, {0, "", ""}, "", 0}; }
Entry of_line(std::string text, const LineStyle& line) { return {std::move(text), {0, 0, ""}, line, "", 0}; }
Entry of_fill(std::string text, const std::string& fill) { return {std::move(text), {0, 0, ""}, {0, "", ""}, fill, 0}; }

bool has_void(const Series& series) {
  return std::any_of(series.points.begin(), series.points.end(),
                     [](const SeriesPoint& point) { return point.is_void; });
}

bool has_points_of(const Series& series, PointKind kind) {
  return std::ranges::any_of(series.points, [kind](const SeriesPoint& point) { return point.kind == kind; });
}

bool has_bars(const Series& series) {
  return std::any_of(series.points.begin(), series.points.end(),
                     [](const SeriesPoint& point) { return !is_missing(point.expanded_uncertainty); });
}

std::vector<Entry> entries_of(const SeriesHistory& history, const Theme& theme,
                              const std::vector<PictureKey>& calibrators) {
  std::vector<Entry> entries;
  for (const PictureKey& key : calibrators) entries.push_back(of_mark(key.text, key.mark));
  for (std::size_t kind = 0; kind < point_kinds.size(); ++kind) {
    const bool is_by_calibrator = !calibrators.empty() && kind <= static_cast<std::size_t>(PointKind::bench);
    if (!is_by_calibrator && has_points_of(history.series, static_cast<PointKind>(kind)))
      entries.push_back(of_mark(std::string(point_kinds[kind].title), theme.points[kind]));
  }
  if (has_bars(history.series))
    entries.push_back(of_line("bars: expanded uncertainty (k = 2), where known", theme.spread));
  const bool has_limits = !history.charts.empty();
  if (has_limits) entries.push_back(of_mark("signal of a rule", theme.signal));
  if (has_void(history.series)) entries.push_back(of_mark("void: shown, not counted", theme.void_));
  if (has_limits) {
    entries.push_back(of_line("centre line", theme.centre));
    entries.push_back(of_line("control limit", theme.limit));
  }
  if (history.series.tolerance.is_stated())
    entries.push_back(of_line("tolerance: " + history.series.tolerance.source, theme.tolerance));
  if (history.forecast.trend && history.forecast.trend->is_resolved) {
    entries.push_back(of_line("trend", theme.trend));
    entries.push_back(of_fill("where one more result is expected (95 %)", theme.band));
  }
  if (!std::isnan(limits_of_next(history, {}).lower))
    entries.push_back(of_line("beyond it a next point asks for an action", theme.next));
  if (history.series.phases.size() > 1)
    entries.push_back(of_line("something was done to it; a new phase", theme.phase));
  if (has_limits) entries.push_back(of_fill("points that the limits come from", theme.baseline));
  return entries;
}

std::string tally(const SeriesHistory& history) {
  std::map<std::string, std::size_t> count;
  for (const ControlChart& chart : history.charts) {
    if (chart.kind != ChartKind::individuals) continue;
    for (const ChartSignal& signal : chart.signals) ++count[signal.rule];
  }
  std::string text;
  for (const auto& [rule, times] : count) text += (text.empty() ? "" : ", ") + rule + " " + std::to_string(times) + "×";
  return text.empty() ? "No signals on the upper chart." : "Signals on the upper chart: " + text + ".";
}

std::string rules_said(const ChartChoices& choices) {
  std::string text;
  for (const RunRule& rule : choices.rules) text += (text.empty() ? "" : ", ") + name_of(rule);
  return text;
}

constexpr std::size_t longest_line = 72;
constexpr std::size_t fewest_lines = 11;  // a legend of fewer is not spread out over its box

// Breaks a text at blanks, so that it stays inside the legend.
void add_broken(std::vector<std::string>& lines, const std::string& text) {
  std::string line;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, end - at);
    if (!line.empty() && line.size() + 1 + word.size() > longest_line) {
      lines.push_back(line);
      line.clear();
    }
    line += (line.empty() ? "" : " ") + word;
    at = end + 1;
  }
  lines.push_back(line);
}

// Where the limits come from, and which rules gave signals.
void add_words_on_limits(std::vector<std::string>& words, const SeriesHistory& history, const ChartChoices& choices) {
  if (const std::string lacks = lacks_limits(history); !lacks.empty())
    add_broken(words, "No control limits: " + lacks + ".");
  if (history.charts.empty()) return;
  const ControlChart& chart = history.charts.back();
  words.push_back((history.series.phases.size() > 1 ? "Limits of the last phase that has any from " : "Limits from ") +
                  std::to_string(chart.baseline_n) + " points" +
                  (chart.is_provisional() ? ": provisional, fewer than 20." : "."));
  add_broken(words, choices.rules.empty() ? "No run rules." : "Rules: " + rules_said(choices) + ".");
  if (!choices.rules.empty())
    words.push_back("By chance alone, about one point in " +
                    chart_figure(points_between_false_signals(choices.rules), 2) + " is a signal.");
  add_broken(words, tally(history));
  words.push_back("EWMA λ " + chart_figure(choices.ewma_lambda) + ", limits ± " + chart_figure(choices.ewma_width) +
                  " of its sigmas; CUSUM k " + chart_figure(choices.cusum_k) + ", h " + chart_figure(choices.cusum_h) +
                  " sigmas.");
}

}  // namespace

std::vector<std::string> legend_words(const SeriesHistory& history, const ChartChoices& choices) {
  std::vector<std::string> words;
  add_words_on_limits(words, history, choices);
  if (const std::string lacks = lacks_limits_of_next(history); !lacks.empty() && lacks_limits(history).empty())
    add_broken(words, "No limits of a next point: " + lacks + ".");
  return words;
}

Legend legend_of(const SeriesHistory& history, const ChartChoices& choices, const Theme& theme,
                 const std::vector<PictureKey>& calibrators) {
  Legend legend;
  legend.entries = entries_of(history, theme, calibrators);
  const std::vector<std::string> words = legend_words(history, choices);
  const std::size_t lines = std::max(legend.entries.size() + words.size() + 1, fewest_lines);
  legend.step = 1.0 / static_cast<double>(lines);
  double y = 1 - legend.step / 2;
  for (Legend::Entry& entry : legend.entries) {
    entry.y = y;
    y -= legend.step;
  }
  y -= legend.step / 2;
  for (const std::string& line : words) {
    legend.words.push_back({line, y});
    y -= legend.step;
  }
  return legend;
}

}  // namespace driftwarden
