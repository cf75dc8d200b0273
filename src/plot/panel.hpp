// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <string>
#include <utility>
#include <vector>

#include "plot/date_axis.hpp"
#include "plot/theme.hpp"

namespace driftwarden {

// One set of axes of a picture and what is drawn on them, in order from behind to the front. Figures are those of the
// axes; x is days since 1970 of the local clock.
struct Panel {
  struct Range {
    double low = 0;
    double high = 1;
  };
  // Joined points; a missing y breaks the line.
  struct Curve {
    std::vector<double> x;
    std::vector<double> y;
    LineStyle line;
    bool is_over_marks = false;  // else under them
  };
  struct Marks {
    std::vector<double> x;
    std::vector<double> y;
    MarkStyle mark;
  };
  // Between two curves.
  struct Area {
    std::vector<double> x;
    std::vector<double> low;
    std::vector<double> high;
    std::string colour;
  };
  struct Bars {
    std::vector<double> x;
    std::vector<double> y;
    std::vector<double> half;
    LineStyle line;
  };
  // Within a closed line.
  struct Patch {
    std::vector<double> x;
    std::vector<double> y;
    std::string colour;
  };
  // Words about a point, or about an upright line. They stand where they cover nothing; where there is no such place,
  // nowhere.
  struct Note {
    double x = 0;
    double y = 0;
    std::string text;
    std::string colour;
    bool is_above = true;       // the point rather than below
    bool is_of_a_line = false;  // beside it, above the panel where there is room, else wherever it is free
    int farthest = 6;           // half heights of the words from the point
  };
  // Words beginning at a point, whatever they cover.
  struct Words {
    double x = 0;
    double y = 0;
    std::string text;
  };
  // A name at the right end of a level line.
  struct Level {
    double y = 0;
    std::string text;
    std::string colour;
  };

  std::string title;
  std::string title_colour;  // "": as other text
  std::string subtitle;      // below the title, smaller
  std::string x_label;       // below the axis; of figures that are no dates
  std::string y_label;
  std::string unit;   // above the figures of the upright axis, where there is no room for a label beside them
  std::string frame;  // the colour of a line around the panel; "": only the axes
  Range x;
  Range y;
  double left = 0;  // place on the picture, 0 to 1 from its lower left corner
  double right = 1;
  double bottom = 0;
  double top = 1;
  std::size_t most_tics = 6;    // of dates
  std::size_t most_levels = 8;  // figures on the y axis
  double level_gap = 0.019;     // least distance of two levels' names, of the picture's height
  double room_above = 0;        // pixels above it that words may use
  bool has_dates = true;
  bool has_levels = true;

  std::vector<DateTic> x_tics;  // of an axis that is none of dates: its figures, where they stand
  std::vector<Range> shaded;    // along x
  std::vector<Patch> patches;
  std::vector<Area> areas;
  std::vector<Curve> curves;
  std::vector<Bars> bars;
  std::vector<Marks> marks;
  std::vector<Note> notes;
  std::vector<Words> words;
  std::vector<Level> levels;
};

// The distance between figures on an axis: 1, 2 or 5 in some decimal place, so that at most so many fit in.
double tic_step(double span, std::size_t most);

// A range that holds all values (missing ones aside) with a little room on both sides.
Panel::Range range_around(const std::vector<double>& values);

enum class PictureFormat { svg, png, pdf };

std::string_view ending_of(PictureFormat format);
// Of "svg", "png" or "pdf".
PictureFormat format_named(std::string_view name);

// A mark, or a line, and what it stands for. Shape 0, and a width of 0: words alone.
struct PictureKey {
  MarkStyle mark;
  std::string text;
  LineStyle line{0, "", ""};

  bool is_a_line() const { return line.width > 0; }
  bool has_a_mark() const { return !is_a_line() && mark.shape != 0; }
};
inline PictureKey key_of_line(const LineStyle& line, std::string text) { return {{0, 0, ""}, std::move(text), line}; }

struct PictureHead {
  std::string file;  // without folder, with its ending
  std::string title;
  std::string subtitle;
  std::string forecast;  // a third line; may be empty
  Extent size;
  PictureFormat format = PictureFormat::svg;
  std::string foot;               // below all panels; may be empty
  std::vector<PictureKey> key{};  // below the forecast
};

}  // namespace driftwarden
