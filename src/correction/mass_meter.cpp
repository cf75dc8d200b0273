// SPDX-License-Identifier: MIT
#include "correction/mass_meter.hpp"

namespace driftwarden {

double mass_factor(Conditions standard, Conditions use) { return mass_factor(in_numbers(standard), in_numbers(use)); }

}  // namespace driftwarden
