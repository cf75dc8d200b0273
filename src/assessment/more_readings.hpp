// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

#include "assessment/budget.hpp"

namespace driftwarden {

// A sample's budget as it would be with so many more readings in its set before and its set after.
//
//   u' = u √(n / (n + m))      ν' = ν + m, of a set's own scatter (of one pooled over other sets ν stays)
//
//   u, ν     of a set's repeatability in the budget      n  its readings      m  more of them
//   Source   JCGM 100 (GUM) 4.2.3: the mean of n readings has s²/n
//   Valid    readings that scatter as those that were taken; all other inputs stay as they are
//   Example  five readings and two more: repeatability times 0.845
Budget with_more_readings(const Budget& budget, const SampleAssessment& figures, std::size_t more);

}  // namespace driftwarden
