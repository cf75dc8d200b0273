// SPDX-License-Identifier: MIT
#pragma once

#include <limits>
#include <string>

namespace driftwarden {

// What a statistic is when its data can't give one: s of a single reading, a quantile at an impossible probability.
inline constexpr double no_figure = std::numeric_limits<double>::quiet_NaN();

// Lower and upper end of a confidence, prediction or other interval. No figure where there is no such end.
struct Bounds {
  double lower = no_figure;
  double upper = no_figure;
};

// Whether its ends are one figure.
inline bool is_one(const Bounds& range) { return range.lower == range.upper; }

// "5 µm", "1 µm to 15 µm": both ends as somebody writes a figure, or the one.
template <class Text>
std::string from_to(const Bounds& range, Text text_of) {
  return (is_one(range) ? std::string() : text_of(range.lower) + " to ") + text_of(range.upper);
}

}  // namespace driftwarden
