// SPDX-License-Identifier: MIT
#include "plot/picture_script.hpp"

#include <algorithm>
#include <cmath>

#include "diagnostic/characters.hpp"
#include "plot/date_axis.hpp"
#include "plot/gnuplot_text.hpp"
#include "plot/panel_layout.hpp"
#include "plot/svg_shapes.hpp"

namespace driftwarden {
namespace {

// The measures that gnuplot takes from the size of letters, so that its pictures and these are alike.
class SvgMeasures {
 public:
  explicit SvgMeasures(const Theme& theme) : points_(theme.text_points) {}

  double line() const { return 1.5 * points_; }
  double letter() const { return 0.7 * points_; }
  double tic() const { return line() / 4; }
  double mark() const { return line() / 4; }  // from the middle to the edge, of size 1

 private:
  double points_;
};

// A part of a picture with axes of its own.
struct SvgFrame {
  SvgBox box;
  Panel::Range x;
  Panel::Range y;

  SvgPoint at(double on_x, double on_y) const {
    return {box.left + (on_x - x.low) / (x.high - x.low) * (box.right - box.left),
            box.bottom - (on_y - y.low) / (y.high - y.low) * (box.bottom - box.top)};
  }
  std::vector<SvgPoint> all(const std::vector<double>& on_x, const std::vector<double>& on_y) const {
    std::vector<SvgPoint> points;
    for (std::size_t i = 0; i < on_x.size(); ++i) points.push_back(at(on_x[i], on_y[i]));
    return points;
  }
  bool holds(double on_x, double on_y) const {
    return on_x >= x.low && on_x <= x.high && on_y >= y.low && on_y <= y.high;
  }
};

SvgBox box_on(Extent picture, double left, double right, double bottom, double top) {
  return {left * picture.width, right * picture.width, (1 - top) * picture.height, (1 - bottom) * picture.height};
}

std::size_t letters_in(std::string_view text) {
  std::size_t letters = 0;
  for (; !text.empty(); ++letters) text.remove_prefix(std::max<std::size_t>(character_length(text), 1));
  return letters;
}

class SvgPanel {
 public:
  SvgPanel(std::string& svg, const Panel& panel, const Theme& theme, Extent picture)
      : svg_(svg),
        panel_(panel),
        theme_(theme),
        picture_(picture),
        measures_(theme),
        frame_{box_on(picture, panel.left, panel.right, panel.bottom, panel.top), panel.x, panel.y},
        dates_(panel.x_tics.empty() ? date_tics(panel.x.low, panel.x.high, panel.most_tics) : panel.x_tics),
        levels_(levels()) {}

  void draw() {
    for (const Panel::Range& range : panel_.shaded) shade(range);
    for (const Level& level : levels_) grid_line({box().left, at_level(level)}, {box().right, at_level(level)});
    for (const DateTic& tic : dates_) grid_line({at_date(tic), box().bottom}, {at_date(tic), box().top});
    for (const Panel::Patch& patch : panel_.patches) fill(frame_.all(patch.x, patch.y), patch.colour);
    for (const Panel::Area& area : panel_.areas) fill_between(area);
    curves(false);
    for (const Panel::Bars& each : panel_.bars) bars(each);
    for (const Panel::Marks& each : panel_.marks) marks(each);
    curves(true);
    axes();
    titles();
    for (const PlacedLevel& placed : placed_levels(panel_)) {
      const double y = box().bottom - placed.height * (box().bottom - box().top);
      small({box().right + 1.4 * measures_.letter(), y}, placed.level->text, placed.level->colour);
    }
    for (const PlacedNote& placed : placed_notes(panel_, theme_, picture_)) {
      small({box().left + placed.x * (box().right - box().left), box().bottom - placed.y * (box().bottom - box().top)},
            placed.note->text, placed.note->colour);
    }
    for (const Panel::Words& words : panel_.words) small(frame_.at(words.x, words.y), words.text, theme_.text);
  }

 private:
  // A figure on the upright axis.
  struct Level {
    double y = 0;
    std::string text;
  };

  const SvgBox& box() const { return frame_.box; }
  double at_level(const Level& level) const { return frame_.at(panel_.x.low, level.y).y; }
  double at_date(const DateTic& tic) const { return frame_.at(tic.day, panel_.y.low).x; }

  std::vector<Level> levels() const {
    const double step = tic_step(panel_.y.high - panel_.y.low, panel_.most_levels);
    const double little = 0.01 * step;  // as far beyond an end gnuplot still writes a figure
    std::vector<Level> levels;
    for (double i = std::ceil((panel_.y.low - little) / step); i * step <= panel_.y.high + little; ++i)
      levels.push_back({i * step, panel_.has_levels ? chart_figure(i * step, 6) : ""});
    return levels;
  }

  void line(SvgPoint from, SvgPoint to, const LineStyle& style) { append_svg_lines(svg_, {{from, to}}, style); }
  void grid_line(SvgPoint from, SvgPoint to) { line(from, to, {0.5, "", theme_.grid}); }
  void fill(const std::vector<SvgPoint>& points, const std::string& colour) {
    append_svg_area(svg_, area_within(box(), points), colour);
  }
  void small(SvgPoint at, const std::string& text, const std::string& colour, SvgAnchor anchor = SvgAnchor::start) {
    append_svg_words(svg_, text, {at, theme_.small_points, colour, anchor});
  }

  void shade(const Panel::Range& range) {
    const double left = frame_.at(range.low, 0).x;
    const double right = frame_.at(range.high, 0).x;
    fill({{left, box().top}, {right, box().top}, {right, box().bottom}, {left, box().bottom}}, theme_.baseline);
  }

  void fill_between(const Panel::Area& area) {
    std::vector<SvgPoint> around = frame_.all(area.x, area.low);
    const std::vector<SvgPoint> back = frame_.all(area.x, area.high);
    around.insert(around.end(), back.rbegin(), back.rend());
    fill(around, area.colour);
  }

  void curves(bool over_marks) {
    for (const Panel::Curve& curve : panel_.curves) {
      if (curve.is_over_marks == over_marks)
        append_svg_lines(svg_, line_within(box(), frame_.all(curve.x, curve.y)), curve.line);
    }
  }

  void bars(const Panel::Bars& of) {
    std::vector<SvgPoint> all;
    const auto add = [&](SvgPoint from, SvgPoint to) { all.insert(all.end(), {from, to, {missing, missing}}); };
    for (std::size_t i = 0; i < of.x.size(); ++i) {
      const SvgPoint low = frame_.at(of.x[i], of.y[i] - of.half[i]);
      const SvgPoint high = frame_.at(of.x[i], of.y[i] + of.half[i]);
      add(low, high);
      for (const SvgPoint end : {low, high}) add({end.x - measures_.tic(), end.y}, {end.x + measures_.tic(), end.y});
    }
    append_svg_lines(svg_, line_within(box(), all), of.line);
  }

  void marks(const Panel::Marks& of) {
    for (std::size_t i = 0; i < of.x.size(); ++i) {
      if (frame_.holds(of.x[i], of.y[i])) append_svg_mark(svg_, frame_.at(of.x[i], of.y[i]), measures_.mark(), of.mark);
    }
  }

  void axes() {
    const bool is_framed = !panel_.frame.empty();
    const LineStyle style{is_framed ? 2 : 0.8, "", is_framed ? panel_.frame : theme_.faint};
    std::vector<SvgPoint> border{{box().left, box().top}, {box().left, box().bottom}, {box().right, box().bottom}};
    if (is_framed) border.insert(border.end(), {{box().right, box().top}, {box().left, box().top}});
    append_svg_lines(svg_, {border}, style);
    for (const Level& level : levels_) {
      const double y = at_level(level);
      line({box().left, y}, {box().left - measures_.tic(), y}, style);
      small({box().left - measures_.tic() - measures_.letter(), y}, level.text, theme_.faint, SvgAnchor::end);
    }
    for (const DateTic& tic : dates_) {
      const double x = at_date(tic);
      line({x, box().bottom}, {x, box().bottom + measures_.tic()}, style);
      if (panel_.has_dates)
        small({x, box().bottom + measures_.tic() + measures_.line()}, tic.label, theme_.faint, SvgAnchor::middle);
    }
    labels_of_axes();
  }

  // The upright one beside the widest figure; where there is no room, nowhere.
  void labels_of_axes() {
    std::size_t letters = 0;
    for (const Level& level : levels_) letters = std::max(letters, letters_in(level.text));
    const double left =
        box().left - measures_.tic() - static_cast<double>(letters + 1) * measures_.letter() - 0.85 * measures_.line();
    if (left > measures_.line() / 2)
      append_svg_words(
          svg_, panel_.y_label,
          {{left, (box().top + box().bottom) / 2}, theme_.small_points, theme_.faint, SvgAnchor::middle, true});
    small({(box().left + box().right) / 2, box().bottom + measures_.tic() + 2.5 * measures_.line()}, panel_.x_label,
          theme_.faint, SvgAnchor::middle);
  }

  void titles() {
    const auto above = [&](double lines) { return SvgPoint{box().left, box().top - lines * measures_.line()}; };
    append_svg_words(svg_, panel_.title,
                     {above(panel_.subtitle.empty() ? 0.8 : 1.9), theme_.text_points,
                      panel_.title_colour.empty() ? theme_.text : panel_.title_colour});
    small(above(0.8), panel_.subtitle, theme_.faint);
    small({box().left - 0.6 * measures_.letter(), above(0.7).y}, panel_.unit, theme_.faint, SvgAnchor::end);
  }

  std::string& svg_;
  const Panel& panel_;
  const Theme& theme_;
  Extent picture_;
  SvgMeasures measures_;
  SvgFrame frame_;
  std::vector<DateTic> dates_;
  std::vector<Level> levels_;
};

void append_svg_key(std::string& svg, const PictureHead& head, const Theme& theme) {
  const SvgMeasures measures(theme);
  for (const PlacedKey& placed : placed_key(head, theme)) {
    SvgPoint words{placed.x, placed.down};
    if (placed.entry->has_a_mark()) {
      append_svg_mark(svg, words, measures.mark(), placed.entry->mark);
      words = {words.x + 1.2 * measures.letter() + measures.mark(), words.y + 0.35 * measures.line() - measures.mark()};
    }
    if (placed.entry->is_a_line())
      append_svg_lines(svg, {{{placed.left, placed.down}, {placed.left + length_of_key_line, placed.down}}},
                       placed.entry->line);
    append_svg_words(svg, placed.entry->text, {words, theme.small_points, theme.faint});
  }
}

}  // namespace

// A picture is a line with the name of its file, and then the file.
void begin_picture(std::string& script, const PictureHead& head, const Theme& theme) {
  const std::string width = std::to_string(head.size.width);
  const std::string height = std::to_string(head.size.height);
  script += head.file + "\n<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' width='" +
            width + "' height='" + height + "' viewBox='0 0 " + width + " " + height + "' font-family='" + theme.font +
            "'>\n<desc>Produced by driftwarden</desc>\n";
  append_svg_symbols(script, SvgMeasures(theme).mark());
  script += "<rect width='" + width + "' height='" + height + "' fill='" + theme.background + "'/>\n";
  const auto put = [&](const std::string& text, double down, double points, const std::string& colour) {
    append_svg_words(script, text, {{16, down}, points, colour});
  };
  put(head.title, 22, theme.title_points, theme.text);
  put(head.subtitle, 42, theme.text_points, theme.faint);
  put(head.forecast, 60, theme.text_points, theme.text);
  append_svg_key(script, head, theme);
  put(head.foot, head.size.height - 9, theme.small_points, theme.faint);
}

void end_picture(std::string& script) { script += "</svg>\n"; }

void append_panel(std::string& script, const Panel& panel, const Theme& theme, Extent picture) {
  SvgPanel(script, panel, theme, picture).draw();
}

void append_legend(std::string& script, const Box& box, const Legend& legend, const Theme& theme, Extent picture) {
  const SvgFrame frame{box_on(picture, box.left, box.right, box.bottom, box.top), {0, 1}, {0, 1}};
  const auto say = [&](const std::string& text, double x, double y, const std::string& colour) {
    append_svg_words(script, text, {frame.at(x, y), theme.small_points, colour});
  };
  for (const Legend::Entry& entry : legend.entries) {
    const double half = legend_fill_half * legend.step;
    if (!entry.fill.empty())
      append_svg_area(script,
                      frame.all({0, legend_line_to, legend_line_to, 0},
                                {entry.y - half, entry.y - half, entry.y + half, entry.y + half}),
                      entry.fill, theme.grid);
    if (entry.line.width > 0)
      append_svg_lines(script, {frame.all({0, legend_line_to}, {entry.y, entry.y})}, entry.line);
    append_svg_mark(script, frame.at(legend_mark_at, entry.y), SvgMeasures(theme).mark(), entry.mark);
    say(entry.text, legend_words_at, entry.y, theme.text);
  }
  for (const Legend::Words& words : legend.words) say(words.text, 0, words.y, theme.faint);
}

}  // namespace driftwarden
