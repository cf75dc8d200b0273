// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <vector>

#include "assessment/pump_drifts.hpp"

namespace driftwarden {

struct AssessmentBasis;

// What one set tells of its calibrator's scatter; the formula: assessment/calibrator_scatter.
struct SetScatter {
  Row last = no_row;      // its last reading, which says of which calibrator and when the set ended
  std::uint32_t dof = 0;  // n − 1
  double squares = 0;     // (n − 1) (s / q)², ratio²
};

// What the sets of a book tell of other samples.
struct ToldBySets {
  PumpUses uses;
  std::vector<std::vector<SetScatter>> scatters;  // by stretch of the book, in the order of samples, then of pumps
};

// All that is told, in one pass over the book before anything is judged; the same with any number of threads. Leans on
// all of the basis but on what is made of it. A part of a split book is handed the scatters.
ToldBySets told_by_sets(const AssessmentBasis& basis, unsigned threads);

}  // namespace driftwarden
