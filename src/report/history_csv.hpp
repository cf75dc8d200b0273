// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/instrument_history.hpp"

namespace driftwarden {

// The file history.csv: a line a point, with what each chart plots there and the signals it gave, as "chart:rule"
// joined by ";". Missing figures are empty.
std::string history_csv(const Screening& screening, const std::vector<InstrumentHistory>& histories);

}  // namespace driftwarden
