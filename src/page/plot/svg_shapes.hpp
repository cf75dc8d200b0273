// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plot/theme.hpp"

namespace driftwarden {

// Elements of SVG 1.1, as text. All in pixels from the upper left corner of the picture.
struct SvgPoint {
  double x = 0;
  double y = 0;
};
struct SvgBox {
  double left = 0;
  double right = 0;
  double top = 0;
  double bottom = 0;
};

// What of a line lies in a box. A point with a coordinate that is no number breaks the line.
std::vector<std::vector<SvgPoint>> line_within(const SvgBox& box, const std::vector<SvgPoint>& points);

// What of an area within a closed line lies in a box.
std::vector<SvgPoint> area_within(const SvgBox& box, std::vector<SvgPoint> points);

// Lines, dashed as gnuplot would: its lengths are in half widths of the line.
void append_svg_lines(std::string& svg, const std::vector<std::vector<SvgPoint>>& lines, const LineStyle& style);

// Within a closed line; `frame` is the colour of a line of one pixel around it, "" for none.
void append_svg_area(std::string& svg, const std::vector<SvgPoint>& points, const std::string& colour,
                     const std::string& frame = "");

enum class SvgAnchor { start, middle, end };

struct SvgWords {
  SvgPoint at;  // at the height of the middle of small letters
  double points = 0;
  std::string colour;
  SvgAnchor anchor = SvgAnchor::start;
  bool is_upwards = false;
};
void append_svg_words(std::string& svg, std::string_view text, const SvgWords& words);

// All marks that a theme may name, by gnuplot's numbers, to be used by the marks of a picture; as thick as a line of
// one pixel in marks of that many pixels.
void append_svg_symbols(std::string& svg, double pixels_of_a_mark);
void append_svg_mark(std::string& svg, SvgPoint at, double pixels, const MarkStyle& mark);

}  // namespace driftwarden
