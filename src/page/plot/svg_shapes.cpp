// SPDX-License-Identifier: MIT
#include "plot/svg_shapes.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "quantity/rounding.hpp"
#include "report/html_text.hpp"

namespace driftwarden {
namespace {

constexpr int svg_decimals = 2;
constexpr double below_the_middle = 0.325;  // the foot of letters, of their size

std::string svg_number(double figure) { return with_decimals(figure, svg_decimals); }
std::string svg_pair(SvgPoint point) { return svg_number(point.x) + "," + svg_number(point.y); }

// "#0b4f8a" as "rgb(11,79,138)", the form in which inline_svg finds the colours of a page.
std::string svg_colour(std::string_view hexadecimal) {
  std::string text = "rgb(";
  for (std::size_t at = 1; at + 1 < hexadecimal.size(); at += 2) {
    int part = 0;
    std::from_chars(hexadecimal.data() + at, hexadecimal.data() + at + 2, part, 16);
    text += (at > 1 ? "," : "") + std::to_string(part);
  }
  return text + ")";
}

// "(8,4)" for a line 1.2 wide: "4.80,2.40".
std::string svg_dashes(const LineStyle& style) {
  std::string text;
  const char* at = style.dashes.data() + 1;
  const char* end = style.dashes.data() + style.dashes.size();
  for (double length = 0; at < end; ++at) {
    at = std::from_chars(at, end, length).ptr;
    text += (text.empty() ? "" : ",") + svg_number(length * style.width / 2);
  }
  return text;
}

bool is_a_point(SvgPoint point) { return std::isfinite(point.x) && std::isfinite(point.y); }

// Narrows the part [enter, leave] of a line, 0 to 1, to what lies on one side of an edge: distance to it is `from` at
// the beginning and `to` at the end, negative outside (L. Barsky, Y.-D. Liang 1984).
void narrow_to_side(double from, double to, double& enter, double& leave) {
  if (from < 0 && to < 0) leave = -1;
  if (from < 0 && to >= 0) enter = std::max(enter, from / (from - to));
  if (from >= 0 && to < 0) leave = std::min(leave, from / (from - to));
}

// How far a point is inside each of the four edges; negative: outside.
std::array<double, 4> insides(const SvgBox& box, SvgPoint point) {
  return {point.x - box.left, box.right - point.x, point.y - box.top, box.bottom - point.y};
}

SvgPoint part_of_the_way(SvgPoint from, SvgPoint to, double part) {
  return {from.x + part * (to.x - from.x), from.y + part * (to.y - from.y)};
}

struct SvgSymbol {
  std::string_view path;
  bool is_filled;
};
// gnuplot's point types, from 1: drawn about 0,0, their edges at about 1 from it.
constexpr std::array<SvgSymbol, 15> symbols{{
    {"M-1,0 h2 M0,-1 v2", false},
    {"M-1,-1 L1,1 M1,-1 L-1,1", false},
    {"M-1,0 h2 M0,-1 v2 M-1,-1 L1,1 M-1,1 L1,-1", false},
    {"M-1,-1 h2 v2 h-2 z", false},
    {"M-1,-1 h2 v2 h-2 z", true},
    {"M-1,0 a1,1 0 1,0 2,0 a1,1 0 1,0 -2,0 z", false},
    {"M-1,0 a1,1 0 1,0 2,0 a1,1 0 1,0 -2,0 z", true},
    {"M0,-1.33 L1.33,0.67 h-2.66 z", false},
    {"M0,-1.33 L1.33,0.67 h-2.66 z", true},
    {"M0,1.33 L1.33,-0.67 h-2.66 z", false},
    {"M0,1.33 L1.33,-0.67 h-2.66 z", true},
    {"M0,-1.41 L1.41,0 L0,1.41 L-1.41,0 z", false},
    {"M0,-1.41 L1.41,0 L0,1.41 L-1.41,0 z", true},
    {"M0,1.33 L1.26,0.41 L0.78,-1.08 L-0.78,-1.08 L-1.26,0.41 z", false},
    {"M0,1.33 L1.26,0.41 L0.78,-1.08 L-0.78,-1.08 L-1.26,0.41 z", true},
}};

}  // namespace

std::vector<std::vector<SvgPoint>> line_within(const SvgBox& box, const std::vector<SvgPoint>& points) {
  std::vector<std::vector<SvgPoint>> lines;
  bool goes_on = false;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const SvgPoint from = points[i - 1];
    const SvgPoint to = points[i];
    double enter = 0;
    double leave = is_a_point(from) && is_a_point(to) ? 1 : -1;
    const std::array<double, 4> before = insides(box, from);
    const std::array<double, 4> after = insides(box, to);
    for (std::size_t edge = 0; edge < before.size(); ++edge) narrow_to_side(before[edge], after[edge], enter, leave);
    if (enter > leave) {
      goes_on = false;
      continue;
    }
    if (!goes_on || enter > 0) lines.push_back({part_of_the_way(from, to, enter)});
    lines.back().push_back(part_of_the_way(from, to, leave));
    goes_on = leave == 1;
  }
  return lines;
}

// One edge after the other (I. E. Sutherland, G. W. Hodgman 1974).
std::vector<SvgPoint> area_within(const SvgBox& box, std::vector<SvgPoint> points) {
  std::erase_if(points, [](SvgPoint point) { return !is_a_point(point); });
  for (std::size_t edge = 0; edge < 4; ++edge) {
    std::vector<SvgPoint> kept;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const SvgPoint from = points[i == 0 ? points.size() - 1 : i - 1];
      const double before = insides(box, from)[edge];
      const double after = insides(box, points[i])[edge];
      if ((before < 0) != (after < 0)) kept.push_back(part_of_the_way(from, points[i], before / (before - after)));
      if (after >= 0) kept.push_back(points[i]);
    }
    points = std::move(kept);
  }
  return points;
}

void append_svg_lines(std::string& svg, const std::vector<std::vector<SvgPoint>>& lines, const LineStyle& style) {
  std::string path;
  for (const std::vector<SvgPoint>& line : lines) {
    for (std::size_t i = 0; i < line.size(); ++i) path += (i == 0 ? "M" : " L") + svg_pair(line[i]);
  }
  if (path.empty()) return;
  svg += "<path fill='none' stroke='" + svg_colour(style.colour) + "' stroke-width='" + svg_number(style.width) + "'";
  if (!style.dashes.empty()) svg += " stroke-dasharray='" + svg_dashes(style) + "'";
  svg += " d='" + path + "'/>\n";
}

void append_svg_area(std::string& svg, const std::vector<SvgPoint>& points, const std::string& colour,
                     const std::string& frame) {
  if (points.empty()) return;
  svg += "<polygon fill='" + svg_colour(colour) + "' stroke='" + (frame.empty() ? "none" : svg_colour(frame)) +
         "' points='";
  for (const SvgPoint point : points) svg += (svg.back() == '\'' ? "" : " ") + svg_pair(point);
  svg += "'/>\n";
}

void append_svg_words(std::string& svg, std::string_view text, const SvgWords& words) {
  if (text.empty()) return;
  constexpr std::array<std::string_view, 3> anchors{"start", "middle", "end"};
  const double down = below_the_middle * words.points;
  const SvgPoint foot =
      words.is_upwards ? SvgPoint{words.at.x + down, words.at.y} : SvgPoint{words.at.x, words.at.y + down};
  svg += "<text transform='translate(" + svg_pair(foot) + ")" + (words.is_upwards ? " rotate(270)" : "") +
         "' stroke='none' fill='" + svg_colour(words.colour) + "' font-size='" + svg_number(words.points) +
         "' text-anchor='" + std::string(anchors[static_cast<std::size_t>(words.anchor)]) + "'>";
  append_html(svg, text);
  svg += "</text>\n";
}

void append_svg_symbols(std::string& svg, double pixels_of_a_mark) {
  svg += "<defs>\n";
  for (std::size_t i = 0; i < symbols.size(); ++i) {
    svg += "<path id='gpPt" + std::to_string(i) + "' stroke-width='" + with_decimals(1 / pixels_of_a_mark, 3) +
           "' stroke='currentColor' fill='" + (symbols[i].is_filled ? "currentColor" : "none") + "' d='" +
           std::string(symbols[i].path) + "'/>\n";
  }
  svg += "</defs>\n";
}

void append_svg_mark(std::string& svg, SvgPoint at, double pixels, const MarkStyle& mark) {
  if (mark.shape < 1 || static_cast<std::size_t>(mark.shape) > symbols.size()) return;
  svg += "<use xlink:href='#gpPt" + std::to_string(mark.shape - 1) + "' transform='translate(" + svg_pair(at) +
         ") scale(" + svg_number(mark.size * pixels) + ")' color='" + svg_colour(mark.colour) + "'/>\n";
}

}  // namespace driftwarden
