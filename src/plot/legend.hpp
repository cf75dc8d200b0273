// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/instrument_history.hpp"
#include "plot/panel.hpp"

namespace driftwarden {

// Where the legend of a picture stands, as places on it from 0 to 1.
struct Box {
  double left = 0;
  double right = 1;
  double bottom = 0;
  double top = 1;
};

// What the marks and lines of a series' picture mean, where its limits come from, and which rules gave signals; one
// below the other in a box whose height is 1.
struct Legend {
  struct Entry {
    std::string text;
    MarkStyle mark;    // shape 0: none
    LineStyle line;    // width 0: none
    std::string fill;  // "": none
    double y = 0;
  };
  struct Words {
    std::string text;
    double y = 0;
  };
  std::vector<Entry> entries;
  std::vector<Words> words;
  double step = 0;  // from one to the next
};

// Where they stand in it from left to right, in a box whose width is 1.
inline constexpr double legend_mark_at = 0.03;
inline constexpr double legend_line_to = 0.065;   // from the left edge, as fillings
inline constexpr double legend_fill_half = 0.3;   // of a step, above and below the middle
inline constexpr double legend_words_at = 0.085;  // of entries; other words begin at the left edge

Legend legend_of(const SeriesHistory& history, const ChartChoices& choices, const Theme& theme,
                 const std::vector<PictureKey>& calibrators = {});

// The words of it below the marks.
std::vector<std::string> legend_words(const SeriesHistory& history, const ChartChoices& choices);

}  // namespace driftwarden
