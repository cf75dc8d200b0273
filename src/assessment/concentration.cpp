// SPDX-License-Identifier: MIT
#include "assessment/concentration.hpp"

#include <cmath>

namespace driftwarden {

double uncertainty_of_blank(double s, std::size_t n) { return s * std::sqrt(1 + 1 / static_cast<double>(n)); }

double uncertainty_of_unseen(double limit, std::size_t unseen, std::size_t blanks) {
  if (unseen == 0) return 0;
  return static_cast<double>(unseen) / static_cast<double>(blanks) * limit / std::sqrt(3.0);
}

}  // namespace driftwarden
