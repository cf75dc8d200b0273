// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <filesystem>
#include <string>
#include <string_view>

#include "diagnostic/result.hpp"
#include "history/series.hpp"

namespace driftwarden {

struct LineStyle {
  double width = 1;
  std::string dashes;  // as gnuplot writes them, "" for a solid line
  std::string colour;
};

struct MarkStyle {
  int shape = 7;  // gnuplot's number
  double size = 1;
  std::string colour;

  bool operator==(const MarkStyle&) const = default;
};

// The same mark filled, and open. Valid for gnuplot's circles, squares, triangles, diamonds and pentagons.
MarkStyle filled(MarkStyle mark);
MarkStyle open(MarkStyle mark);

// Whose marks are told apart, as a theme calls them.
inline constexpr std::array<std::string_view, 6> marked_calibrators{"first",  "second", "third",
                                                                    "fourth", "fifth",  "others"};

struct Extent {
  int width = 0;
  int height = 0;
};

// How pictures look: everything that is a matter of taste or of the paper, read from plots/NAME.toml.
struct Theme {
  std::string name;
  std::string font;
  double title_points = 0;
  double text_points = 0;
  double small_points = 0;

  std::string background;
  std::string text;
  std::string faint;
  std::string grid;
  std::string band;
  std::string baseline;

  LineStyle value;   // joins the points
  LineStyle spread;  // bars of uncertainty; value's line in the colour of spread
  LineStyle centre;
  LineStyle limit;
  LineStyle tolerance;
  LineStyle trend;
  LineStyle next;  // beyond it a next point asks for an action
  LineStyle phase;

  MarkStyle point;                                   // in charts where all points are of one kind
  std::array<MarkStyle, point_kinds.size()> points;  // where they come from different ones
  MarkStyle signal;
  MarkStyle void_;
  MarkStyle crossing;
  std::array<MarkStyle, marked_calibrators.size()> calibrators;  // the last: all others together

  Extent chart;
  Extent tile;
};

// Reads a theme's text. Faults: toml/… and theme/….
Result<Theme> parse_theme(std::string_view text, const std::string& file);

// Reads plots/NAME.toml of the shipped files.
Result<Theme> read_theme(const std::filesystem::path& share, const std::string& name);

}  // namespace driftwarden
