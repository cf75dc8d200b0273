// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

#include "verdict/finding.hpp"

namespace driftwarden {

// How many samples came to which verdict, and how many of them stand otherwise by decision.
struct Totals {
  std::size_t samples = 0;
  std::size_t valid = 0;
  std::size_t qualified = 0;
  std::size_t undecided = 0;
  std::size_t void_ = 0;
  std::size_t valid_by_decision = 0;
  std::size_t qualified_by_decision = 0;
  std::size_t undecided_by_decision = 0;
  std::size_t open = 0;  // void or undecided, and no decision says otherwise

  void count(Verdict verdict) { count(verdict, verdict); }
  void count(Verdict verdict, Verdict standing);
  Totals& operator+=(const Totals& other);
};

}  // namespace driftwarden
