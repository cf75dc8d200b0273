// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/instrument_history.hpp"

namespace driftwarden {

// The file history.json. Points, days and signals are written in the book's zone; what is known by day only has no
// time.
std::string history_json(const Screening& screening, const std::vector<InstrumentHistory>& histories, Day as_of,
                         const ChartChoices& choices);

// When a point of a series was taken, as both files write it.
std::string when_text(const Series& series, Moment at, const TimeZone& zone);

}  // namespace driftwarden
