// SPDX-License-Identifier: MIT
#include "plot/page_charts.hpp"

#include <array>

#include "diagnostic/hexadecimal.hpp"
#include "plot/panel.hpp"
#include "plot/series_panels.hpp"

namespace driftwarden {
namespace {

constexpr Extent chart_size{460, 250};
constexpr double text_points = 12;
constexpr double small_points = 12;
constexpr double left_pixels = 52;
constexpr double right_pixels = 92;
constexpr double top_pixels = 12;
constexpr double bottom_pixels = 32;
constexpr double level_gap_pixels = 14;

// A theme's colours by their numbers on the page, from 1.
std::array<std::string*, chart_colours> colours_of(Theme& theme) {
  return {&theme.text,          &theme.faint,        &theme.grid,
          &theme.band,          &theme.baseline,     &theme.value.colour,
          &theme.centre.colour, &theme.limit.colour, &theme.tolerance.colour,
          &theme.trend.colour,  &theme.point.colour, &theme.signal.colour,
          &theme.void_.colour};
}

// "#030303"
std::string marker(int number) {
  std::string part;
  append_hexadecimal(part, static_cast<unsigned>(number), 2);
  return "#" + part + part + part;
}

// The same theme with numbers for colours, and letters large enough for a small chart.
Theme numbered(Theme theme) {
  int number = 0;
  for (std::string* colour : colours_of(theme)) *colour = marker(++number);
  theme.spread.colour = theme.value.colour;
  theme.phase.colour = theme.faint;
  theme.upper_sum.colour = theme.lower_sum.colour = theme.point.colour;
  for (MarkStyle& mark : theme.points) mark.colour = theme.point.colour;
  theme.text_points = text_points;
  theme.small_points = small_points;
  return theme;
}

std::string root_of(Theme theme) {
  std::string text = ":root{";
  int number = 0;
  for (const std::string* colour : colours_of(theme))
    text += "--chart-" + std::to_string(++number) + ":" + *colour + ";";
  return text + "}";
}

}  // namespace

PageCharts page_charts(const std::vector<WantedChart>& wanted, const TimeZone& zone, const Theme& theme) {
  PageCharts charts;
  const Theme look = numbered(theme);
  for (const WantedChart& of : wanted) {
    const std::string file = "chart-" + std::to_string(charts.charts.size()) + ".svg";
    begin_picture(charts.script, {file, "", "", "", chart_size, PictureFormat::svg, ""}, look);
    Panel panel = main_panel(*of.series, zone, look);
    panel.left = left_pixels / chart_size.width;
    panel.right = 1 - right_pixels / chart_size.width;
    panel.top = 1 - top_pixels / chart_size.height;
    panel.bottom = bottom_pixels / chart_size.height;
    panel.y_label = "[" + of.series->series.unit + "]";
    panel.most_tics = 4;
    panel.level_gap = level_gap_pixels / chart_size.height;
    append_panel(charts.script, panel, look);
    end_picture(charts.script);
    charts.charts.push_back({of.of, of.series, file});
  }
  return charts;
}

std::string chart_style(const Theme& light, const Theme& dark, const Theme& print) {
  std::string text = root_of(light) + "\n@media (prefers-color-scheme:dark){" + root_of(dark) + "}\n@media print{" +
                     root_of(print) + "}\n";
  for (int number = 1; number <= chart_colours; ++number) {
    const std::string n = std::to_string(number);
    text += ".s" + n + "{stroke:var(--chart-" + n + ")}.f" + n + "{fill:var(--chart-" + n + ")}.k" + n +
            "{color:var(--chart-" + n + ")}\n";
  }
  return text;
}

}  // namespace driftwarden
