// SPDX-License-Identifier: MIT
#include "plot/panel.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "plot/date_axis.hpp"
#include "plot/gnuplot_text.hpp"
#include "quantity/elementary.hpp"

namespace driftwarden {
namespace {

constexpr double pixels_an_inch = 96;

std::string text_colour(const std::string& colour) { return " textcolor rgb '" + colour + "'"; }

std::string font(const Theme& theme, double points) {
  return " font '" + theme.font + "," + gnuplot_figure(points) + "'";
}

std::string line_words(const LineStyle& line) {
  const std::string dashes = line.dashes.empty() ? " dashtype solid" : " dashtype " + line.dashes;
  return " linewidth " + gnuplot_figure(line.width) + dashes + " linecolor rgb '" + line.colour + "'";
}

// Collects the parts of one plot command with the data that each needs.
class PlotCommand {
 public:
  PlotCommand(std::string& script) : script_(script) {}

  void add(const std::vector<const std::vector<double>*>& columns, const std::string& how) {
    const std::string name = "$d" + std::to_string(++blocks_);
    script_ += name + " << EOD\n";
    for (std::size_t row = 0; row < columns.front()->size(); ++row) append_row(columns, row);
    script_ += "EOD\n";
    command_ += (command_.empty() ? "plot " : ", ") + name + " using " + using_words(columns.size()) + how + " notitle";
  }
  void finish() {
    // Without anything to draw the axes still are drawn.
    script_ += (command_.empty() ? std::string("plot NaN notitle") : command_) + "\n";
  }

 private:
  void append_row(const std::vector<const std::vector<double>*>& columns, std::size_t row) {
    for (std::size_t column = 0; column < columns.size(); ++column) {
      if (column > 0) script_ += ' ';
      script_ += gnuplot_figure((*columns[column])[row]);
    }
    script_ += '\n';
  }
  static std::string using_words(std::size_t columns) {
    std::string words = "1";
    for (std::size_t column = 2; column <= columns; ++column) words += ":" + std::to_string(column);
    return words;
  }

  std::string& script_;
  std::string command_;
  int blocks_ = 0;
};

double height_on(const Panel& panel, double y) { return (y - panel.y.low) / (panel.y.high - panel.y.low); }

// Moves level names apart, from the bottom up, then back down where they ran out at the top.
std::vector<double> heights_apart(const Panel& panel, const std::vector<Panel::Level>& levels, double gap) {
  std::vector<double> heights;
  for (const Panel::Level& level : levels) heights.push_back(height_on(panel, level.y));
  for (std::size_t i = 1; i < heights.size(); ++i) heights[i] = std::max(heights[i], heights[i - 1] + gap);
  double ceiling = 0.97;  // below the title, which may be long
  for (std::size_t i = heights.size(); i-- > 0;) {
    heights[i] = std::min(heights[i], ceiling);
    ceiling = heights[i] - gap;
  }
  return heights;
}

void append_levels(std::string& script, const Panel& panel, const Theme& theme) {
  std::vector<Panel::Level> levels;
  for (const Panel::Level& level : panel.levels) {
    if (level.y >= panel.y.low && level.y <= panel.y.high) levels.push_back(level);
  }
  std::stable_sort(levels.begin(), levels.end(),
                   [](const Panel::Level& a, const Panel::Level& b) { return a.y < b.y; });
  const double gap = std::min(0.2, panel.level_gap / (panel.top - panel.bottom));
  const std::vector<double> heights = heights_apart(panel, levels, gap);
  for (std::size_t i = 0; i < levels.size(); ++i) {
    script += "set label " + gnuplot_quoted(levels[i].text) + " at graph 1.008, graph " + gnuplot_figure(heights[i]) +
              " left noenhanced" + font(theme, theme.small_points) + text_colour(levels[i].colour) + "\n";
  }
}

// Notes near an edge lean away from it.
std::string side_of(const Panel& panel, double x) {
  const double place = (x - panel.x.low) / (panel.x.high - panel.x.low);
  return place < 0.06 ? " left" : place > 0.94 ? " right" : " center";
}

// Where the text stands from its point.
std::string offset_of(const Panel& panel, const Panel::Note& note) {
  const double height = height_on(panel, note.y);
  const bool is_above = height > 0.9 ? false : height < 0.1 ? true : note.is_above;
  const std::string up = is_above ? "0.9" : "-0.9";
  if (!note.is_beside) return side_of(panel, note.x) + " offset 0," + up;
  const bool has_room = (note.x - panel.x.low) / (panel.x.high - panel.x.low) < 0.7;
  return has_room ? " left offset 0.6," + up : " right offset -0.6," + up;
}

void append_notes(std::string& script, const Panel& panel, const Theme& theme) {
  for (const Panel::Note& note : panel.notes) {
    script += "set label " + gnuplot_quoted(note.text) + " at first " + gnuplot_figure(note.x) + ", first " +
              gnuplot_figure(note.y) + offset_of(panel, note) + " front noenhanced" + (note.is_boxed ? " boxed" : "") +
              font(theme, theme.small_points) + text_colour(note.colour) + "\n";
  }
}

void append_axes(std::string& script, const Panel& panel, const Theme& theme) {
  const auto at = [](double place) { return " at screen " + gnuplot_figure(place); };
  script += "unset label\nunset object\nunset arrow\nunset xtics\nunset ytics\nunset grid\n";
  script += "set lmargin" + at(panel.left) + "\nset rmargin" + at(panel.right) + "\nset bmargin" + at(panel.bottom) +
            "\nset tmargin" + at(panel.top) + "\n";
  script += "set xrange [" + gnuplot_figure(panel.x.low) + ":" + gnuplot_figure(panel.x.high) + "]\n";
  script += "set yrange [" + gnuplot_figure(panel.y.low) + ":" + gnuplot_figure(panel.y.high) + "]\n";
  script += "set border 3 linewidth 0.8 linecolor rgb '" + theme.faint + "'\n";
  script += "unset title\nset label " + gnuplot_quoted(panel.title) +
            " at graph 0, graph 1 left offset 0,0.8 noenhanced" + font(theme, theme.text_points) +
            text_colour(theme.text) + "\n";
  if (panel.is_plain) {
    script += "set ylabel ''\n";
    return;
  }
  script += "set ylabel " + gnuplot_quoted(panel.y_label) + " noenhanced" + font(theme, theme.small_points) +
            text_colour(theme.faint) + "\n";
  script += "set ytics " + gnuplot_figure(tic_step(panel.y.high - panel.y.low, panel.most_levels)) +
            " nomirror out scale 0.5" + font(theme, theme.small_points) + text_colour(theme.faint) + "\n";
  script += "set xtics nomirror out scale 0.5" + font(theme, theme.small_points) + text_colour(theme.faint) + " (";
  bool is_first = true;
  for (const DateTic& tic : date_tics(panel.x.low, panel.x.high, panel.most_tics)) {
    script += (is_first ? "" : ", ") + gnuplot_quoted(tic.label) + " " + gnuplot_figure(tic.day);
    is_first = false;
  }
  script += ")\nset grid xtics ytics linetype 1 linewidth 0.5 linecolor rgb '" + theme.grid + "' behind\n";
}

void append_shades(std::string& script, const Panel& panel, const Theme& theme) {
  for (const Panel::Range& range : panel.shaded) {
    script += "set object rectangle from first " + gnuplot_figure(std::max(range.low, panel.x.low)) +
              ", graph 0 to first " + gnuplot_figure(std::min(range.high, panel.x.high)) +
              ", graph 1 behind fillcolor rgb '" + theme.baseline + "' fillstyle solid noborder\n";
  }
}

void append_data(std::string& script, const Panel& panel) {
  PlotCommand plot(script);
  for (const Panel::Area& area : panel.areas) {
    plot.add({&area.x, &area.low, &area.high},
             " with filledcurves fillcolor rgb '" + area.colour + "' fillstyle solid noborder");
  }
  const auto draw_curves = [&](bool over_marks) {
    for (const Panel::Curve& curve : panel.curves) {
      if (curve.is_over_marks == over_marks) plot.add({&curve.x, &curve.y}, " with lines" + line_words(curve.line));
    }
  };
  draw_curves(false);
  for (const Panel::Bars& bars : panel.bars)
    plot.add({&bars.x, &bars.y, &bars.half}, " with yerrorbars pointtype -1" + line_words(bars.line));
  for (const Panel::Marks& marks : panel.marks) {
    if (!marks.x.empty()) plot.add({&marks.x, &marks.y}, " with points" + gnuplot_mark(marks.mark));
  }
  draw_curves(true);
  plot.finish();
}

}  // namespace

void append_panel(std::string& script, const Panel& panel, const Theme& theme) {
  append_axes(script, panel, theme);
  append_shades(script, panel, theme);
  append_levels(script, panel, theme);
  append_notes(script, panel, theme);
  append_data(script, panel);
}

double tic_step(double span, std::size_t most) {
  const double least = span / static_cast<double>(most);
  const double unit = elementary::pow(10, std::floor(elementary::log10(least)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (step * unit >= least * (1 - 1e-9)) return step * unit;
  }
  return 10 * unit;
}

Panel::Range range_around(const std::vector<double>& values) {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const double value : values) {
    if (!std::isfinite(value)) continue;
    low = std::min(low, value);
    high = std::max(high, value);
  }
  if (low > high) return {0, 1};
  const double room = high > low ? 0.07 * (high - low) : std::max(std::fabs(high) * 0.05, 1e-3);
  return {low - room, high + room};
}

std::string_view ending_of(PictureFormat format) {
  switch (format) {
    case PictureFormat::svg:
      return ".svg";
    case PictureFormat::png:
      return ".png";
    case PictureFormat::pdf:
      return ".pdf";
  }
  return "";
}

void begin_picture(std::string& script, const PictureHead& head, const Theme& theme) {
  const auto size = [&](double per) {
    return gnuplot_figure(head.size.width / per) + "," + gnuplot_figure(head.size.height / per);
  };
  const std::string look = font(theme, theme.text_points) + " background rgb '" + theme.background + "'";
  script += "reset\n";
  if (head.format == PictureFormat::svg)
    script += "set terminal svg size " + size(1) + " fixed noenhanced name 'chart'" + look + "\n";
  if (head.format == PictureFormat::png)
    script += "set terminal pngcairo size " + size(1) + " noenhanced" + look + "\n";
  if (head.format == PictureFormat::pdf)
    script += "set terminal pdfcairo size " + gnuplot_figure(head.size.width / pixels_an_inch) + "in," +
              gnuplot_figure(head.size.height / pixels_an_inch) + "in noenhanced fontscale 0.75" + look + "\n";
  script += "set encoding utf8\nset minussign\nset style textbox opaque noborder fillcolor rgb '" + theme.background +
            "' margins 0.4,0.3\nset output " + gnuplot_quoted(head.file) + "\nset multiplot\nunset key\n";
  const double line = 1.0 / head.size.height;
  const auto put = [&](const std::string& text, double down, double points, const std::string& colour) {
    script += "set label " + gnuplot_quoted(text) + " at screen " + gnuplot_figure(16.0 / head.size.width) +
              ", screen " + gnuplot_figure(1 - down * line) + " left noenhanced" + font(theme, points) +
              text_colour(colour) + "\n";
  };
  put(head.title, 22, theme.title_points, theme.text);
  put(head.subtitle, 42, theme.text_points, theme.faint);
  if (!head.forecast.empty()) put(head.forecast, 60, theme.text_points, theme.text);
  if (!head.foot.empty()) put(head.foot, head.size.height - 9, theme.small_points, theme.faint);
  script +=
      "unset border\nunset tics\nset lmargin at screen 0\nset rmargin at screen 0.01\nset bmargin at screen 0\nset "
      "tmargin at screen 0.01\n";
  script += "set xrange [0:1]\nset yrange [0:1]\nplot NaN notitle\n";
}

void end_picture(std::string& script) { script += "unset multiplot\nunset output\n"; }

}  // namespace driftwarden
