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

// What the marks and lines of a series' picture mean, where its limits come from, and which rules gave signals.
void append_legend(std::string& script, const Box& box, const SeriesHistory& history, const ChartChoices& choices,
                   const Theme& theme, const std::vector<PictureKey>& calibrators = {});

// The words of it below the marks.
std::vector<std::string> legend_words(const SeriesHistory& history, const ChartChoices& choices);

}  // namespace driftwarden
