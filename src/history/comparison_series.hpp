// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "history/use_log.hpp"

namespace driftwarden {

// Two calibrators that read one pump within this time, at one stage of one sample, are compared.
inline constexpr Moment longest_gap_of_a_comparison_s = 3600;

// Two calibrators on one pump.
struct Comparison {
  Row sample = no_row;
  Row earlier = no_row;  // calibrators
  Row later = no_row;
  Moment at = no_moment;
  const PumpCheck* earlier_check = nullptr;
  const PumpCheck* later_check = nullptr;
};

// Sets on one pump by different calibrators, one after the other, at the same stage of the same sample or of none,
// whose gap is at most an hour: in between the pump is not set anew. They point into the log.
std::vector<Comparison> comparisons_from(const UseLog& log);

// How much more a calibrator shows than another one, in percent, corrected flows at the conditions of each reading: one
// series "compared-with NAME" for each other calibrator. The pump may have moved in between. `starts` are the
// phases the book states for the calibrator.
std::vector<Series> comparison_series(const Screening& screening, const std::vector<Comparison>& comparisons,
                                      Row calibrator, const std::vector<PhaseStart>& starts = {});

}  // namespace driftwarden
