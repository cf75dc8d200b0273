// SPDX-License-Identifier: MIT
#include "correction/reference_conditions.hpp"

namespace driftwarden {

double at_reference(double actual, Conditions at, Conditions reference) {
  return at_reference(actual, in_numbers(at), in_numbers(reference));
}

}  // namespace driftwarden
