// SPDX-License-Identifier: MIT
#pragma once

#include <limits>

namespace driftwarden {

// What a statistic is when its data can't give one: s of a single reading, a quantile at an impossible probability.
inline constexpr double no_figure = std::numeric_limits<double>::quiet_NaN();

// Lower and upper end of a confidence, prediction or other interval. No figure where there is no such end.
struct Bounds {
  double lower = no_figure;
  double upper = no_figure;
};

}  // namespace driftwarden
