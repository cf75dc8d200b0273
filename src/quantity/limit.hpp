// SPDX-License-Identifier: MIT
#pragma once

namespace driftwarden {

// A figure within this relative distance of a limit is on the limit: 2.000 -> 1.900 L/min is exactly -5 %, though
// doubles say -5.000000000000004.
inline constexpr double on_the_limit = 1e-9;
// No figure but 0 is relatively near 0, yet a difference that should be 0 may come out as 1e-17: within this, a figure
// is on a limit of 0. In inside units it is far below anything measured.
inline constexpr double on_a_limit_of_zero = 1e-12;

enum class Side { below, on, above };

// Where a figure lies from a limit. The one place in which a figure meets a limit; nothing is rounded before. The
// distance is relative to the larger of the two magnitudes, so figure and limit may change places. Neither may be NaN.
Side side_of_limit(double figure, double limit);

}  // namespace driftwarden
