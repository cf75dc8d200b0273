// SPDX-License-Identifier: MIT
#include "plot/panel.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "plot/date_axis.hpp"
#include "plot/gnuplot_text.hpp"
#include "plot/label_places.hpp"
#include "quantity/elementary.hpp"

namespace driftwarden {
namespace {

constexpr double pixels_an_inch = 96;
constexpr double pixels_of_a_key_line = 14;

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
    script += "set label " + gnuplot_quoted(levels[i].text) + " at graph 1, graph " + gnuplot_figure(heights[i]) +
              " left offset 1.4,0 noenhanced" + font(theme, theme.small_points) + text_colour(levels[i].colour) + "\n";
  }
}

// What is drawn on a panel, in its pixels, so that words keep off it.
class Drawn {
 public:
  Drawn(const Panel& panel, double width, double height)
      : panel_(panel), width_(width), height_(height), places_({0, width, 0, height + panel.room_above}) {
    for (const Panel::Area& area : panel.areas) {
      line(area.x, area.low);
      line(area.x, area.high);
      for (std::size_t i = 0; i < area.x.size(); ++i)
        places_.keep_off_line(at(area.x[i], area.low[i]), at(area.x[i], area.high[i]));
    }
    for (const Panel::Curve& curve : panel.curves) line(curve.x, curve.y);
    for (const Panel::Bars& bars : panel.bars) {
      for (std::size_t i = 0; i < bars.x.size(); ++i)
        places_.keep_off_line(at(bars.x[i], bars.y[i] - bars.half[i]), at(bars.x[i], bars.y[i] + bars.half[i]));
    }
    for (const Panel::Marks& marks : panel.marks) {
      for (std::size_t i = 0; i < marks.x.size(); ++i) mark(at(marks.x[i], marks.y[i]), marks.mark.size);
    }
  }

  std::optional<LabelPlaces::Box> take(const Panel::Note& note, double width, double height) {
    const LabelPlaces::Point point = at(note.x, note.y);
    if (!note.is_of_a_line) return places_.take(places_around(point, width, height, note.is_above, note.farthest));
    std::vector<LabelPlaces::Box> places;
    for (double bottom = height_ + panel_.room_above - height; bottom >= 0; bottom -= height) {
      for (const double left : {point.x + beside_a_line, point.x - beside_a_line - width})
        places.push_back({left, left + width, bottom, bottom + height});
    }
    return places_.take(places);
  }

 private:
  static constexpr double pixels_of_a_mark = 6.5;  // from its middle to its edge, at size 1
  static constexpr double beside_a_line = 4;

  LabelPlaces::Point at(double x, double y) const {
    return {(x - panel_.x.low) / (panel_.x.high - panel_.x.low) * width_, height_on(panel_, y) * height_};
  }
  void line(const std::vector<double>& x, const std::vector<double>& y) {
    for (std::size_t i = 1; i < x.size(); ++i) places_.keep_off_line(at(x[i - 1], y[i - 1]), at(x[i], y[i]));
  }
  void mark(LabelPlaces::Point middle, double size) {
    const double half = pixels_of_a_mark * size;
    places_.keep_off({middle.x - half, middle.x + half, middle.y - half, middle.y + half});
  }

  const Panel& panel_;
  double width_;
  double height_;
  LabelPlaces places_;
};

double text_width(std::string_view text, double points) {
  constexpr double of_a_letter = 0.6;  // of its height; DejaVu Sans has less on average
  const auto letters = std::count_if(text.begin(), text.end(), [](char byte) { return (byte & 0xC0) != 0x80; });
  return of_a_letter * points * static_cast<double>(letters);
}

void append_notes(std::string& script, const Panel& panel, const Theme& theme, Extent picture) {
  if (panel.notes.empty()) return;
  const double width = (panel.right - panel.left) * picture.width;
  const double height = (panel.top - panel.bottom) * picture.height;
  Drawn drawn(panel, width, height);
  for (const Panel::Note& note : panel.notes) {
    const auto box = drawn.take(note, text_width(note.text, theme.small_points), 1.2 * theme.small_points);
    if (!box) continue;
    script += "set label " + gnuplot_quoted(note.text) + " at graph " + gnuplot_figure(box->left / width) + ", graph " +
              gnuplot_figure((box->bottom + box->top) / 2 / height) + " left front noenhanced" +
              font(theme, theme.small_points) + text_colour(note.colour) + "\n";
  }
}

void append_words(std::string& script, const Panel& panel, const Theme& theme) {
  for (const Panel::Words& words : panel.words) {
    script += "set label " + gnuplot_quoted(words.text) + " at first " + gnuplot_figure(words.x) + ", first " +
              gnuplot_figure(words.y) + " left front noenhanced" + font(theme, theme.small_points) +
              text_colour(theme.text) + "\n";
  }
}

void append_titles(std::string& script, const Panel& panel, const Theme& theme) {
  const auto put = [&](const std::string& text, double lines_up, double points, const std::string& colour) {
    if (text.empty()) return;
    script += "set label " + gnuplot_quoted(text) + " at graph 0, graph 1 left offset 0," + gnuplot_figure(lines_up) +
              " noenhanced" + font(theme, points) + text_colour(colour) + "\n";
  };
  put(panel.title, panel.subtitle.empty() ? 0.8 : 1.9, theme.text_points,
      panel.title_colour.empty() ? theme.text : panel.title_colour);
  put(panel.subtitle, 0.8, theme.small_points, theme.faint);
}

// A label beside the figures would be left out by gnuplot where they are wide.
void append_unit(std::string& script, const Panel& panel, const Theme& theme) {
  if (panel.unit.empty()) return;
  script += "set label " + gnuplot_quoted(panel.unit) + " at graph 0, graph 1 right offset -0.6,0.7 noenhanced" +
            font(theme, theme.small_points) + text_colour(theme.faint) + "\n";
}

void append_axes(std::string& script, const Panel& panel, const Theme& theme) {
  const auto at = [](double place) { return " at screen " + gnuplot_figure(place); };
  script += "unset label\nunset object\nunset arrow\nunset xtics\nunset ytics\nunset grid\n";
  script += "set lmargin" + at(panel.left) + "\nset rmargin" + at(panel.right) + "\nset bmargin" + at(panel.bottom) +
            "\nset tmargin" + at(panel.top) + "\n";
  script += "set xrange [" + gnuplot_figure(panel.x.low) + ":" + gnuplot_figure(panel.x.high) + "]\n";
  script += "set yrange [" + gnuplot_figure(panel.y.low) + ":" + gnuplot_figure(panel.y.high) + "]\n";
  const bool is_framed = !panel.frame.empty();
  script += "set border " + std::string(is_framed ? "15 linewidth 2" : "3 linewidth 0.8") + " linecolor rgb '" +
            (is_framed ? panel.frame : theme.faint) + "'\nunset title\n";
  append_titles(script, panel, theme);
  append_unit(script, panel, theme);
  script += "set ylabel " + gnuplot_quoted(panel.y_label) + " noenhanced" + font(theme, theme.small_points) +
            text_colour(theme.faint) + "\n";
  if (!panel.x_label.empty()) {
    script += "set xlabel " + gnuplot_quoted(panel.x_label) + " noenhanced" + font(theme, theme.small_points) +
              text_colour(theme.faint) + "\n";
  }
  script += "set ytics " + gnuplot_figure(tic_step(panel.y.high - panel.y.low, panel.most_levels)) +
            " nomirror out scale 0.5" + font(theme, theme.small_points) + text_colour(theme.faint) +
            (panel.has_levels ? " format '%g'\n" : " format ''\n");
  script += "set xtics nomirror out scale 0.5" + font(theme, theme.small_points) + text_colour(theme.faint) + " (";
  bool is_first = true;
  for (const DateTic& tic :
       panel.x_tics.empty() ? date_tics(panel.x.low, panel.x.high, panel.most_tics) : panel.x_tics) {
    script += (is_first ? "" : ", ") + gnuplot_quoted(panel.has_dates ? tic.label : "") + " " + gnuplot_figure(tic.day);
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
  for (const Panel::Patch& patch : panel.patches) {
    plot.add({&patch.x, &patch.y},
             " with filledcurves closed fillcolor rgb '" + patch.colour + "' fillstyle solid noborder");
  }
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

void append_panel(std::string& script, const Panel& panel, const Theme& theme, Extent picture) {
  append_axes(script, panel, theme);
  append_shades(script, panel, theme);
  append_levels(script, panel, theme);
  append_notes(script, panel, theme, picture);
  append_words(script, panel, theme);
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

PictureFormat format_named(std::string_view name) {
  if (name == "png") return PictureFormat::png;
  return name == "pdf" ? PictureFormat::pdf : PictureFormat::svg;
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

namespace {

constexpr double side = 16;            // free at the left and the right of a head
constexpr double length_of_line = 26;  // in its key

double pixels_before_words(const PictureKey& entry) {
  if (entry.line.width > 0) return length_of_line + 6;
  return entry.mark.shape != 0 ? 12 : 0;
}

// Where each stands, in pixels from the left end of its line and in lines from the first.
struct KeyPlace {
  double x = 0;
  int line = 0;
};
std::vector<KeyPlace> places_of(const std::vector<PictureKey>& key, double width, const Theme& theme) {
  std::vector<KeyPlace> places;
  KeyPlace next;
  for (const PictureKey& entry : key) {
    const double needed = text_width(entry.text, theme.small_points) + pixels_before_words(entry);
    if (next.x > 0 && next.x + needed > width - 2 * side) next = {0, next.line + 1};
    places.push_back(next);
    next.x += needed + side;
  }
  return places;
}

void append_key(std::string& script, const PictureHead& head, const Theme& theme) {
  const std::vector<KeyPlace> places = places_of(head.key, head.size.width, theme);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const PictureKey& entry = head.key[i];
    const bool has_line = entry.line.width > 0;
    const bool has_mark = !has_line && entry.mark.shape != 0;
    const double left = side + places[i].x;
    const double x = left + (has_line ? pixels_before_words(entry) : has_mark ? 4 : 0);
    const double down = (head.forecast.empty() ? 60 : 78) + places[i].line * pixels_of_a_key_line;
    const std::string y = ", screen " + gnuplot_figure(1 - down / head.size.height);
    script += "set label " + gnuplot_quoted(entry.text) + " at screen " + gnuplot_figure(x / head.size.width) + y +
              " left noenhanced" + font(theme, theme.small_points) + text_colour(theme.faint) +
              (has_mark ? " point" + gnuplot_mark(entry.mark) + " offset 1.2,-0.35" : "") + "\n";
    if (!has_line) continue;
    script += "set arrow from screen " + gnuplot_figure(left / head.size.width) + y + " to screen " +
              gnuplot_figure((left + length_of_line) / head.size.width) + y + " nohead" + line_words(entry.line) + "\n";
  }
}

}  // namespace

double height_of_key(const std::vector<PictureKey>& key, double width, const Theme& theme) {
  return key.empty() ? 0 : (places_of(key, width, theme).back().line + 1) * pixels_of_a_key_line;
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
    script += "set terminal pngcairo size " + size(1) + " noenhanced fontscale 0.75" + look + "\n";
  // Of paper, 72 points of a letter are an inch, and 96 pixels of everything else.
  if (head.format == PictureFormat::pdf)
    script += "set terminal pdfcairo size " + gnuplot_figure(head.size.width / pixels_an_inch) + "in," +
              gnuplot_figure(head.size.height / pixels_an_inch) + "in noenhanced fontscale 0.5625" + look + "\n";
  script +=
      "set encoding utf8\nset minussign\nset output " + gnuplot_quoted(head.file) + "\nset multiplot\nunset key\n";
  const double line = 1.0 / head.size.height;
  const auto put = [&](const std::string& text, double down, double points, const std::string& colour) {
    script += "set label " + gnuplot_quoted(text) + " at screen " + gnuplot_figure(16.0 / head.size.width) +
              ", screen " + gnuplot_figure(1 - down * line) + " left noenhanced" + font(theme, points) +
              text_colour(colour) + "\n";
  };
  put(head.title, 22, theme.title_points, theme.text);
  put(head.subtitle, 42, theme.text_points, theme.faint);
  if (!head.forecast.empty()) put(head.forecast, 60, theme.text_points, theme.text);
  append_key(script, head, theme);
  if (!head.foot.empty()) put(head.foot, head.size.height - 9, theme.small_points, theme.faint);
  script +=
      "unset border\nunset tics\nset lmargin at screen 0\nset rmargin at screen 0.01\nset bmargin at screen 0\nset "
      "tmargin at screen 0.01\n";
  script += "set xrange [0:1]\nset yrange [0:1]\nplot NaN notitle\n";
}

void end_picture(std::string& script) { script += "unset multiplot\nunset output\n"; }

}  // namespace driftwarden
