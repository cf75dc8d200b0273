// SPDX-License-Identifier: MIT
#include "plot/page_charts.hpp"

#include <array>
#include <map>

#include "diagnostic/hexadecimal.hpp"
#include "plot/picture_script.hpp"
#include "plot/series_panels.hpp"

namespace driftwarden {
namespace {

constexpr Extent chart_size{460, 250};
constexpr Extent quiet_size{340, 170};
constexpr double text_points = 12;
constexpr double small_points = 12;
constexpr double left_pixels = 52;
constexpr double right_pixels = 92;
constexpr double quiet_right_pixels = 24;
constexpr double top_pixels = 18;
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
  theme.crossing.colour = theme.trend.colour;
  for (MarkStyle& mark : theme.calibrators) mark.colour = theme.point.colour;
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

namespace {

// The scales of the quiet charts, by what they show.
std::map<std::string, Tile> scales_of(const std::vector<WantedChart>& wanted, const TimeZone& zone) {
  std::map<std::string, std::vector<const SeriesHistory*>> quiet;
  for (const WantedChart& chart : wanted) {
    if (chart.is_quiet) quiet[chart.series->series.name].push_back(chart.series);
  }
  std::map<std::string, Tile> scales;
  for (const auto& [name, shown] : quiet) scales[name] = common_scale(shown, zone);
  return scales;
}

CalibratorMarks marks_of(const std::vector<WantedChart>& wanted) {
  std::vector<const Series*> shown;
  for (const WantedChart& chart : wanted) shown.push_back(&chart.series->series);
  return CalibratorMarks(shown);
}

void put_on(Panel& panel, Extent size, double right) {
  panel.left = left_pixels / size.width;
  panel.right = 1 - right / size.width;
  panel.top = 1 - top_pixels / size.height;
  panel.bottom = bottom_pixels / size.height;
  panel.level_gap = level_gap_pixels / size.height;
}

}  // namespace

PageCharts page_charts(const std::vector<WantedChart>& wanted, const Book& book, const Theme& theme,
                       const SignalLoad& load) {
  PageCharts charts;
  const Theme numbers = numbered(theme);
  const CalibratorMarks calibrators = marks_of(wanted);
  const ChartLook look{book.settings.zone, numbers, calibrators, load};
  const std::map<std::string, Tile> scales = scales_of(wanted, book.settings.zone);
  for (const WantedChart& of : wanted) {
    const std::string file = "chart-" + std::to_string(charts.charts.size()) + ".svg";
    const Extent size = of.is_quiet ? quiet_size : chart_size;
    begin_picture(charts.script, {file, "", "", "", size, PictureFormat::svg, ""}, numbers);
    Panel panel =
        of.is_quiet ? tile_panel(*of.series, scales.at(of.series->series.name), look) : main_panel(*of.series, look);
    put_on(panel, size, of.is_quiet ? quiet_right_pixels : right_pixels);
    panel.room_above = top_pixels;
    panel.y_label.clear();
    panel.unit = "[" + of.series->series.unit + "]";
    panel.most_tics = of.is_quiet ? 3 : 4;
    append_panel(charts.script, panel, numbers, size);
    end_picture(charts.script);
    charts.charts.push_back({of.of, of.series, file});
  }
  charts.calibrator_key = key_text(calibrators, book, theme);
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
