// SPDX-License-Identifier: MIT
#include "plot/series_panels.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "book/stamp_text.hpp"
#include "diagnostic/characters.hpp"
#include "plot/gnuplot_text.hpp"
#include "quantity/elementary.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_bars = 120;
constexpr std::size_t most_joined = 800;  // beyond it, lines are drawn over the points
constexpr std::size_t most_notes = 10;
constexpr std::size_t most_points_with_notes = 400;
constexpr double least_gap_of_notes = 0.09;  // of a panel's width
constexpr int steps_of_a_band = 48;
constexpr double room_for_notes = 0.08;  // of a panel's height
constexpr double room_for_next = 0.06;   // of the days of all points
constexpr double thinner_in_a_tile = 0.7;
constexpr double larger_beyond = 1.4;  // points beyond the tolerance, in a tile
constexpr std::size_t longest_reason = 36;
constexpr double farthest_of_a_tile = 0.75;  // beyond the tolerances, of the distance between them
constexpr int arrow_up = 9;                  // gnuplot's triangles
constexpr int arrow_down = 11;

// A figure with as many decimals as three digits of a span need.
std::string figure_of_span(double value, double span) {
  if (!(span > 0)) return chart_figure(value);
  const double unit = elementary::pow(10, std::floor(elementary::log10(span)) - 2);
  return chart_figure(std::round(value / unit) * unit, 9);
}

struct Drawing {
  const SeriesHistory& history;
  const TimeZone& zone;
  const Theme& theme;
  const CalibratorMarks& calibrators;
  Panel panel;
  std::vector<double> days;
  double scale = 1;
  std::vector<double> heights;  // all that the y axis has to hold

  Drawing(const SeriesHistory& of, const ChartLook& look)
      : history(of), zone(look.zone), theme(look.theme), calibrators(look.calibrators) {
    for (const SeriesPoint& point : of.series.points) days.push_back(axis_day(of.series, point.at, zone));
    scale = crowding(days.size());
  }

  const Series& series() const { return history.series; }
  bool is_dense() const { return days.size() > most_joined; }
  MarkStyle sized(MarkStyle mark, double smallest) const {
    mark.size *= std::max(scale, smallest);
    return mark;
  }
  LineStyle thinned(LineStyle line) const {
    line.width *= std::max(scale, 0.5);
    return line;
  }

  void set_width(double last) {
    const double first = days.front();
    const double room = std::max(0.02 * (last - first), last > first ? 0.25 : 5.0);
    panel.x = {first - room, last + room};
  }

  // With room for the words beside the points.
  Panel::Range height_range() const {
    Panel::Range range = range_around(heights);
    if (panel.notes.empty()) return range;
    const double room = room_for_notes * (range.high - range.low);
    return {range.low - room, range.high + room};
  }

  // A chart's limit over its phase, and a break before the next one.
  template <class Of>
  void limit_curve(ChartKind kind, const LineStyle& line, Of of) {
    Panel::Curve curve{{}, {}, line, is_dense()};
    for (const ControlChart& chart : history.charts) {
      if (chart.kind != kind) continue;
      for (std::size_t i = 0; i < chart.values.size(); ++i) {
        const double y = of(chart, chart.values[i]);
        curve.x.push_back(days[chart.phase.first + i]);
        curve.y.push_back(y);
        heights.push_back(y);
      }
      curve.x.push_back(days[chart.phase.first + chart.phase.count - 1]);
      curve.y.push_back(missing);
    }
    if (!curve.x.empty()) panel.curves.push_back(std::move(curve));
  }

  void limits(ChartKind kind) {
    const auto centre = [kind](const ControlChart& chart, const ChartValue& value) {
      if (kind == ChartKind::cusum) return 0.0;
      return is_missing(value.upper) ? missing : chart.centre;
    };
    limit_curve(kind, theme.centre, centre);
    limit_curve(kind, theme.limit, [](const ControlChart&, const ChartValue& value) { return value.upper; });
    limit_curve(kind, theme.limit, [](const ControlChart&, const ChartValue& value) { return value.lower; });
  }

  // At the last point that has any: those of many points, or of the usual set, may lie elsewhere.
  static std::pair<double, double> last_limits(const ControlChart& chart) {
    for (auto value = chart.values.rbegin(); value != chart.values.rend(); ++value) {
      if (!is_missing(value->upper)) return {value->lower, value->upper};
    }
    return {chart.lower, chart.upper};
  }

  void name_limits(ChartKind kind) {
    const ControlChart* last = nullptr;
    for (const ControlChart& chart : history.charts) {
      if (chart.kind == kind) last = &chart;
    }
    if (last == nullptr) return;
    const bool is_sum = kind == ChartKind::cusum;
    // As fine as the limits lie apart, but not finer than the chart can show.
    const Panel::Range shown = range_around(heights);
    const double span = std::max(last->upper - last->lower, (shown.high - shown.low) / 20);
    const auto figure = [&](double value) { return figure_of_span(value, span); };
    if (is_sum) {
      panel.levels.push_back({last->upper, "h " + figure(last->upper), theme.limit.colour});
      panel.levels.push_back({last->lower, "−h", theme.limit.colour});
      panel.levels.push_back({0, "target " + figure(last->centre), theme.centre.colour});
      return;
    }
    panel.levels.push_back(
        {last->centre, (kind == ChartKind::ewma ? "target " : "centre ") + figure(last->centre), theme.centre.colour});
    const auto [lower, upper] = last_limits(*last);
    panel.levels.push_back({upper, "upper " + figure(upper), theme.limit.colour});
    const bool is_floor = (kind == ChartKind::moving_range || kind == ChartKind::spread) && lower == 0;
    if (!is_floor) panel.levels.push_back({lower, "lower " + figure(lower), theme.limit.colour});
  }

  void shade_baselines(ChartKind kind) {
    for (const ControlChart& chart : history.charts) {
      if (chart.kind == kind)
        panel.shaded.push_back({days[chart.baseline_first] - 0.2, days[chart.baseline_last] + 0.2});
    }
  }

  void mark_phases() {
    for (std::size_t i = 1; i < series().phases.size(); ++i) {
      const std::size_t first = series().phases[i].first;
      const double day = (days[first - 1] + days[first]) / 2;
      panel.curves.push_back({{day, day}, {panel.y.low, panel.y.high}, theme.phase, is_dense()});
      panel.notes.push_back({day, panel.y.low, shortened(series().phases[i].reason), theme.faint, true, true});
    }
  }

  // The reason for a phase, which stands in full in the book.
  static std::string shortened(const std::string& reason) {
    std::size_t end = 0;
    for (std::size_t count = 0; end < reason.size() && count < longest_reason; ++count)
      end += std::max<std::size_t>(character_length(std::string_view(reason).substr(end)), 1);
    return end >= reason.size() ? reason : reason.substr(0, end) + "…";
  }

  void joined(const std::vector<double>& x, const std::vector<double>& y) {
    if (!is_dense()) panel.curves.push_back({x, y, thinned(theme.value), false});
  }

  // No line leads from one phase to the next.
  bool begins_a_phase(std::size_t point) const {
    return point > 0 && std::any_of(series().phases.begin(), series().phases.end(),
                                    [point](const Phase& phase) { return phase.first == point; });
  }
  static void add(std::vector<double>& x, std::vector<double>& y, double day, double value) {
    x.push_back(day);
    y.push_back(value);
  }

  // Marks of the points at which some rule gave a signal, and the names of the rules where there is room.
  void signals(ChartKind kind) {
    std::set<std::pair<std::size_t, double>> marked;
    std::map<std::string, std::size_t> last_of_rule;
    double last_note = -1e9;
    std::size_t notes = 0;
    for (const ControlChart& chart : history.charts) {
      if (chart.kind != kind) continue;
      for (const ChartSignal& signal : chart.signals) {
        const ChartValue& plotted = chart.values[signal.point - chart.phase.first];
        const double height = signal.rule == "lower-sum" ? plotted.second : plotted.value;
        const double middle = kind == ChartKind::cusum ? 0 : chart.centre;
        marked.insert({signal.point, height});
        const auto before = last_of_rule.find(signal.rule);
        const bool goes_on = before != last_of_rule.end() && before->second + 1 == signal.point;
        last_of_rule[signal.rule] = signal.point;
        const bool has_room = days[signal.point] - last_note > least_gap_of_notes * (panel.x.high - panel.x.low);
        if (goes_on || !has_room || notes == most_notes || days.size() > most_points_with_notes) continue;
        panel.notes.push_back(
            {days[signal.point], height, short_name(signal.rule), theme.signal.colour, height >= middle, false, 8});
        last_note = days[signal.point];
        ++notes;
      }
    }
    Panel::Marks marks{{}, {}, sized(theme.signal, 0.2)};
    for (const auto& [point, height] : marked) {
      marks.x.push_back(days[point]);
      marks.y.push_back(height);
    }
    panel.marks.push_back(std::move(marks));
  }

  void join_points() {
    std::vector<double> line_days;
    std::vector<double> line;
    for (std::size_t i = 0; i < days.size(); ++i) {
      if (begins_a_phase(i)) add(line_days, line, days[i], missing);
      add(line_days, line, days[i], series().points[i].counted());
    }
    joined(line_days, line);
  }

  // Adds a mark to those of its shape, colour and size.
  void mark(MarkStyle style, double smallest, std::size_t point, double y) {
    style = sized(style, smallest);
    const auto is_alike = [&](const Panel::Marks& marks) { return marks.mark == style; };
    auto found = std::find_if(panel.marks.begin(), panel.marks.end(), is_alike);
    if (found == panel.marks.end()) found = panel.marks.insert(found, {{}, {}, style});
    found->x.push_back(days[point]);
    found->y.push_back(y);
  }

  void mark_point(std::size_t i) {
    const SeriesPoint& point = series().points[i];
    mark(calibrators.mark_of(point, theme), point.is_void ? 0.5 : 0.15, i, point.value);
    if (const MarkStyle around = calibrators.mark_around(point, theme); around.shape != 0)
      mark(around, 0.3, i, point.value);
  }

  // What a chart shows of a point of its phase; of the cumulative sums the upper one filled, the lower one open.
  void mark_value(const ControlChart& chart, std::size_t i) {
    const std::size_t point = chart.phase.first + i;
    const ChartValue& value = chart.values[i];
    const MarkStyle style = calibrators.mark_of(series().points[point], theme);
    const bool is_sum = chart.kind == ChartKind::cusum;
    if (!is_missing(value.value)) mark(is_sum ? filled(style) : style, 0.15, point, value.value);
    if (is_sum && !is_missing(value.second)) mark(open(style), 0.15, point, value.second);
  }

  void points_of_series() {
    join_points();
    Panel::Bars bars{{}, {}, {}, theme.spread};
    for (std::size_t i = 0; i < days.size(); ++i) {
      const SeriesPoint& point = series().points[i];
      mark_point(i);
      heights.push_back(point.value);
      if (is_missing(point.expanded_uncertainty) || point.is_void || days.size() > most_bars) continue;
      bars.x.push_back(days[i]);
      bars.y.push_back(point.value);
      bars.half.push_back(point.expanded_uncertainty);
      heights.push_back(point.value + point.expanded_uncertainty);
      heights.push_back(point.value - point.expanded_uncertainty);
    }
    if (!bars.x.empty()) panel.bars.push_back(std::move(bars));
  }

  // With room for the limits of a next point, where it has any.
  double last_day(const Bounds& next = {}) const {
    const std::optional<Crossing>& crossing = history.forecast.crossing;
    const double with_room = days.back() + (std::isnan(next.lower) ? 0 : room_for_next * (days.back() - days.front()));
    if (!crossing) return with_room;
    const double reach = history.forecast.last_day + history.forecast.reach_days;
    return std::max(with_room, std::min(std::max(crossing->day, std::min(crossing->latest, reach)), reach));
  }

  // The line and the band in which one more result is expected.
  void trend(double last) {
    const Forecast& forecast = history.forecast;
    if (!forecast.trend || !forecast.trend->is_resolved) return;
    const double first = forecast.origin;
    const double shift = days.back() - series().points.back().day();
    Panel::Curve line{{}, {}, theme.trend, is_dense()};
    Panel::Area band{{}, {}, {}, theme.band};
    for (int i = 0; i <= steps_of_a_band; ++i) {
      const double day = first + (last - shift - first) * i / steps_of_a_band;
      const Bounds bounds = forecast.band_at(day);
      line.x.push_back(day + shift);
      line.y.push_back(forecast.at(day));
      band.x.push_back(day + shift);
      band.low.push_back(bounds.lower);
      band.high.push_back(bounds.upper);
      heights.insert(heights.end(), {bounds.lower, bounds.upper});
    }
    panel.areas.push_back(std::move(band));
    panel.curves.push_back(std::move(line));
  }

  void tolerance() {
    const auto level = [&](double y, const std::string& name) {
      if (is_missing(y) || !std::isfinite(y)) return;
      panel.curves.push_back({{panel.x.low, panel.x.high}, {y, y}, theme.tolerance, is_dense()});
      panel.levels.push_back({y, name + chart_figure(y), theme.tolerance.colour});
      heights.push_back(y);
    };
    level(series().tolerance.upper, "tolerance ");
    level(series().tolerance.lower, "tolerance ");
  }

  // To the right of the points; those of them that a page asks about have some.
  void limits_of_next_point(const Bounds& next) {
    if (std::isnan(next.lower)) return;
    for (const double y : {next.lower, next.upper}) {
      panel.curves.push_back({{days.back(), panel.x.high}, {y, y}, theme.next, is_dense()});
      panel.levels.push_back({y, "next " + figure_of_span(y, next.upper - next.lower), theme.next.colour});
      heights.push_back(y);
    }
  }

  // From the earliest to the latest day on which the tolerance is met, and the likeliest.
  void crossing() {
    if (!history.forecast.crossing) return;
    const Crossing& crossing = *history.forecast.crossing;
    const double shift = days.back() - series().points.back().day();
    const double right = std::min(crossing.latest + shift, panel.x.high);
    LineStyle thick = theme.trend;
    thick.width *= 3;
    thick.dashes.clear();
    panel.curves.push_back({{std::max(crossing.earliest + shift, panel.x.low), right},
                            {crossing.limit, crossing.limit},
                            thick,
                            is_dense()});
    if (crossing.day + shift > panel.x.high) return;
    panel.marks.push_back({{crossing.day + shift}, {crossing.limit}, theme.crossing});
    panel.notes.push_back({crossing.day + shift, crossing.limit,
                           date_text(static_cast<Day>(std::floor(crossing.day + shift))), theme.trend.colour,
                           crossing.limit > series().points.back().value});
  }
};

const ControlChart* any_chart(const SeriesHistory& history, ChartKind kind) {
  for (const ControlChart& chart : history.charts) {
    if (chart.kind == kind) return &chart;
  }
  return nullptr;
}

std::string title_of(ChartKind kind) {
  switch (kind) {
    case ChartKind::moving_range:
      return "Step from the point before (moving range)";
    case ChartKind::mean:
      return "Mean of each set, limits from inside the sets";
    case ChartKind::spread:
      return "Standard deviation inside each set";
    case ChartKind::ewma:
      return "Weighted average of the points so far (EWMA)";
    case ChartKind::cusum:
      return "Cumulative sums, upper and lower (CUSUM)";
    case ChartKind::individuals:
      break;
  }
  return "";
}

}  // namespace

double axis_day(const Series& series, Moment at, const TimeZone& zone) {
  return (static_cast<double>(at) + (series.is_by_day ? 0 : zone.offset_at(at))) / seconds_a_day;
}

std::string short_name(const std::string& rule) {
  static const std::map<std::string, std::string, std::less<>> names{{"beyond-limits", "beyond"},
                                                                     {"two-of-three", "2 of 3"},
                                                                     {"four-of-five", "4 of 5"},
                                                                     {"upper-sum", "upper sum"},
                                                                     {"lower-sum", "lower sum"}};
  if (const auto found = names.find(rule); found != names.end()) return found->second;
  const std::size_t of = rule.rfind("-of-");
  if (of == std::string::npos) return rule;
  const std::string kind = rule.substr(0, of);
  const std::string length = rule.substr(of + 4);
  if (kind == "run") return length + " on a side";
  return kind + " " + length;
}

double crowding(std::size_t points) {
  if (points <= 40) return 1;
  return std::max(0.2, std::sqrt(40.0 / static_cast<double>(points)));
}

Panel main_panel(const SeriesHistory& history, const ChartLook& look) {
  Drawing drawing(history, look);
  drawing.panel.title = "";
  drawing.panel.y_label = history.series.title + " [" + history.series.unit + "]";
  const Bounds next = limits_of_next(history, look.load);
  drawing.set_width(drawing.last_day(next));
  drawing.shade_baselines(ChartKind::individuals);
  drawing.trend(drawing.panel.x.high);
  drawing.tolerance();
  drawing.limits(ChartKind::individuals);
  drawing.name_limits(ChartKind::individuals);
  drawing.points_of_series();
  drawing.signals(ChartKind::individuals);
  drawing.limits_of_next_point(next);
  drawing.crossing();
  drawing.panel.y = drawing.height_range();
  drawing.mark_phases();
  drawing.panel.most_tics = 9;
  return drawing.panel;
}

Panel chart_panel(const SeriesHistory& history, ChartKind kind, const ChartLook& look) {
  Drawing drawing(history, look);
  drawing.panel.title = title_of(kind) + " [" + history.series.unit + "]";
  drawing.set_width(drawing.days.back());
  drawing.panel.most_tics = 4;
  drawing.panel.most_levels = 6;
  if (any_chart(history, kind) == nullptr) return drawing.panel;
  drawing.limits(kind);
  drawing.name_limits(kind);
  std::vector<double> x;
  std::vector<double> y;
  std::vector<double> second;
  for (const ControlChart& chart : history.charts) {
    if (chart.kind != kind) continue;
    for (std::size_t i = 0; i < chart.values.size(); ++i) {
      x.push_back(drawing.days[chart.phase.first + i]);
      y.push_back(chart.values[i].value);
      second.push_back(chart.values[i].second);
      drawing.mark_value(chart, i);
    }
    x.push_back(drawing.days[chart.phase.first + chart.phase.count - 1]);
    y.push_back(missing);
    second.push_back(missing);
  }
  drawing.heights.insert(drawing.heights.end(), y.begin(), y.end());
  drawing.heights.insert(drawing.heights.end(), second.begin(), second.end());
  drawing.joined(x, y);
  if (kind == ChartKind::cusum) drawing.joined(x, second);
  drawing.signals(kind);
  drawing.panel.y = drawing.height_range();
  return drawing.panel;
}

namespace {

// The points of a tile: those beyond the tolerance larger, in the colour of signals; those off the scale as arrows.
void mark_in_tile(Drawing& drawing, const Panel::Range& scale) {
  for (std::size_t i = 0; i < drawing.days.size(); ++i) {
    const SeriesPoint& point = drawing.series().points[i];
    MarkStyle style = drawing.calibrators.mark_of(point, drawing.theme);
    if (!point.is_void && is_beyond(point.value, drawing.series().tolerance)) {
      style.size *= larger_beyond;
      style.colour = drawing.theme.signal.colour;
    }
    const bool is_off = point.value > scale.high || point.value < scale.low;
    if (is_off) style.shape = point.value > scale.high ? arrow_up : arrow_down;
    drawing.mark(style, 0.15, i, std::clamp(point.value, scale.low, scale.high));
  }
}

}  // namespace

Panel tile_panel(const SeriesHistory& history, const Tile& tile, const ChartLook& look) {
  Drawing drawing(history, look);
  drawing.panel.x = tile.x;
  drawing.panel.most_tics = 3;
  drawing.panel.most_levels = 6;
  drawing.trend(std::min(tile.x.high, drawing.last_day()));
  drawing.tolerance();
  drawing.join_points();
  for (Panel::Curve& curve : drawing.panel.curves) curve.line.width *= thinner_in_a_tile;
  drawing.panel.levels.clear();
  drawing.panel.y = tile.y;
  mark_in_tile(drawing, tile.y);
  return drawing.panel;
}

Tile common_scale(const std::vector<const SeriesHistory*>& shown, const TimeZone& zone) {
  std::vector<double> days;
  std::vector<double> values;
  std::vector<double> limits;
  for (const SeriesHistory* history : shown) {
    const Series& series = history->series;
    for (const SeriesPoint& point : series.points) {
      days.push_back(axis_day(series, point.at, zone));
      values.push_back(point.counted());
    }
    limits.insert(limits.end(), {series.tolerance.lower, series.tolerance.upper});
  }
  const Panel::Range inside = range_around(limits);
  const bool has_limits = std::any_of(limits.begin(), limits.end(), [](double limit) { return std::isfinite(limit); });
  const double farthest = farthest_of_a_tile * (inside.high - inside.low);
  for (double& value : values) {
    if (has_limits) value = std::clamp(value, inside.low - farthest, inside.high + farthest);
  }
  values.insert(values.end(), limits.begin(), limits.end());
  return {range_around(days), range_around(values)};
}

}  // namespace driftwarden
