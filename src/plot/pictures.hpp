// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/instrument_history.hpp"
#include "plot/panel.hpp"

namespace driftwarden {

// All pictures of some histories, as one gnuplot script.
struct Pictures {
  std::string script;
  std::vector<std::string> files;  // in the order drawn
};

// For each instrument a picture of each series that is charted (NAME.pre-flow.svg), except where one says the same as
// another: the deviation from nominal stands for the flow itself. A calibrator's points have a page of thumbnails.
// Then pages of the whole fleet, the most urgent first: fleet-pumps and fleet-calibrators, where there are two or more.
Pictures pictures_of(const Screening& screening, const std::vector<InstrumentHistory>& histories,
                     const ChartChoices& choices, const Theme& theme, PictureFormat format);

}  // namespace driftwarden
