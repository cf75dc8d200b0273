// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace driftwarden {

struct DateTic {
  double day = 0;  // days since 1970 of the local clock
  std::string label;
};

// Marks of a time axis: at most `most` of them, on days, Mondays, firsts of months or years, whichever leaves most of
// them; labelled 2026-11-02, 2026-11 or 2026. At least one where the axis is longer than a day.
std::vector<DateTic> date_tics(double from_day, double to_day, std::size_t most);

}  // namespace driftwarden
