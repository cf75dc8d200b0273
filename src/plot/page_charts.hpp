// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/heed.hpp"
#include "plot/theme.hpp"

namespace driftwarden {

// Charts for a page that gives them their colours itself, bright, dark or printed. In the pictures a colour is only a
// number, the same in its three parts: rgb(3, 3, 3) is colour 3 of the page, --chart-3 in its style sheet.
struct PageCharts {
  struct Chart {
    const InstrumentHistory* of = nullptr;
    const SeriesHistory* series = nullptr;
    std::string file;  // that the script writes, SVG
  };
  std::string script;
  std::vector<Chart> charts;
  std::string calibrator_key;  // which mark is of which calibrator, in words; "" where no pump is shown
};

// Which chart is wanted.
struct WantedChart {
  const InstrumentHistory* of = nullptr;
  const SeriesHistory* series = nullptr;
  bool is_quiet = false;  // nothing is asked of it: as a thumbnail, on one scale with all others of its name
};

// The main panel of each wanted series, in the shapes and lines of a theme, on a page that asks with such a load.
PageCharts page_charts(const std::vector<WantedChart>& wanted, const Book& book, const Theme& theme,
                       const SignalLoad& load = {});

// The style sheet that gives the numbers the colours of three themes, and what uses them: .s3 strokes, .f3 fills,
// .k3 is the colour of marks.
std::string chart_style(const Theme& light, const Theme& dark, const Theme& print);

inline constexpr int chart_colours = 13;

}  // namespace driftwarden
