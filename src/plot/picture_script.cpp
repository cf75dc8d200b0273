// SPDX-License-Identifier: MIT
#include "plot/picture_script.hpp"

#include <algorithm>

#include "plot/date_axis.hpp"
#include "plot/gnuplot_text.hpp"
#include "plot/panel_layout.hpp"

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

void append_levels(std::string& script, const Panel& panel, const Theme& theme) {
  for (const PlacedLevel& placed : placed_levels(panel)) {
    script += "set label " + gnuplot_quoted(placed.level->text) + " at graph 1, graph " +
              gnuplot_figure(placed.height) + " left offset 1.4,0 noenhanced" + font(theme, theme.small_points) +
              text_colour(placed.level->colour) + "\n";
  }
}

void append_notes(std::string& script, const Panel& panel, const Theme& theme, Extent picture) {
  for (const PlacedNote& placed : placed_notes(panel, theme, picture)) {
    script += "set label " + gnuplot_quoted(placed.note->text) + " at graph " + gnuplot_figure(placed.x) + ", graph " +
              gnuplot_figure(placed.y) + " left front noenhanced" + font(theme, theme.small_points) +
              text_colour(placed.note->colour) + "\n";
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

void append_legend_line(std::string& script, const Legend::Entry& entry) {
  if (!(entry.line.width > 0)) return;
  const std::string y = ", first " + gnuplot_figure(entry.y);
  script += "set arrow from first 0" + y + " to first " + gnuplot_figure(legend_line_to) + y + " nohead" +
            line_words(entry.line) + "\n";
}

void append_legend_fill(std::string& script, const Legend::Entry& entry, double step, const Theme& theme) {
  if (entry.fill.empty()) return;
  script += "set object rectangle from first 0, first " + gnuplot_figure(entry.y - legend_fill_half * step) +
            " to first " + gnuplot_figure(legend_line_to) + ", first " +
            gnuplot_figure(entry.y + legend_fill_half * step) + " fillcolor rgb '" + entry.fill +
            "' fillstyle solid border linecolor rgb '" + theme.grid + "'\n";
}

void append_key(std::string& script, const PictureHead& head, const Theme& theme) {
  for (const PlacedKey& placed : placed_key(head, theme)) {
    const std::string y = ", screen " + gnuplot_figure(1 - placed.down / head.size.height);
    script +=
        "set label " + gnuplot_quoted(placed.entry->text) + " at screen " + gnuplot_figure(placed.x / head.size.width) +
        y + " left noenhanced" + font(theme, theme.small_points) + text_colour(theme.faint) +
        (placed.entry->has_a_mark() ? " point" + gnuplot_mark(placed.entry->mark) + " offset 1.2,-0.35" : "") + "\n";
    if (!placed.entry->is_a_line()) continue;
    script += "set arrow from screen " + gnuplot_figure(placed.left / head.size.width) + y + " to screen " +
              gnuplot_figure((placed.left + length_of_key_line) / head.size.width) + y + " nohead" +
              line_words(placed.entry->line) + "\n";
  }
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

void append_legend(std::string& script, const Box& box, const Legend& legend, const Theme& theme, Extent) {
  const auto at = [](double place) { return " at screen " + gnuplot_figure(place); };
  script +=
      "unset label\nunset object\nunset arrow\nunset xtics\nunset ytics\nunset grid\nunset border\nset ylabel ''\n";
  script += "set lmargin" + at(box.left) + "\nset rmargin" + at(box.right) + "\nset bmargin" + at(box.bottom) +
            "\nset tmargin" + at(box.top) + "\n";
  script += "set xrange [0:1]\nset yrange [0:1]\n";
  const auto say = [&](const std::string& text, double x, double y, const std::string& colour) {
    script += "set label " + gnuplot_quoted(text) + " at first " + gnuplot_figure(x) + ", first " + gnuplot_figure(y) +
              " left noenhanced" + font(theme, theme.small_points) + text_colour(colour) + "\n";
  };
  std::string marks;
  for (const Legend::Entry& entry : legend.entries) {
    append_legend_line(script, entry);
    append_legend_fill(script, entry, legend.step, theme);
    if (entry.mark.shape != 0)
      marks += (marks.empty() ? "" : ", ") + std::string("'+' using (") + gnuplot_figure(legend_mark_at) + "):(" +
               gnuplot_figure(entry.y) + ") every ::0::0 with points" + gnuplot_mark(entry.mark) + " notitle";
    say(entry.text, legend_words_at, entry.y, theme.text);
  }
  for (const Legend::Words& words : legend.words) say(words.text, 0, words.y, theme.faint);
  script += "plot " + (marks.empty() ? "NaN notitle" : marks) + "\n";
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
