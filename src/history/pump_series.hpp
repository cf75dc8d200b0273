// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "history/use_log.hpp"

namespace driftwarden {

// What is known of a pump over time:
//   pre-flow            L/min  mean of each set before sampling; its tolerance where nominal flow was one throughout
//   pre-flow-deviation  %      the same from the nominal flow, where one is known
//   drift               %      of each use, on the base in force
//   drift-size          %      its size, whichever way it went
//   running-hours       h      sampled with it since the book begins or it was last serviced
// A series without a point is left out. `starts` are the phases the book states for the pump.
std::vector<Series> pump_series(const Screening& screening, const UseLog& log, Row pump,
                                const std::vector<PhaseStart>& starts);

}  // namespace driftwarden
