// SPDX-License-Identifier: MIT
#include "correction/mass_meter.hpp"

namespace driftwarden {

double mass_factor(Conditions standard, Conditions use) { return mass_factor(in_numbers(standard), in_numbers(use)); }

ActualFlow mass_meter_actual_flow(IndicatedFlow indicated, Conditions standard, Conditions use) {
  return ActualFlow(indicated.value * mass_factor(standard, use));
}

}  // namespace driftwarden
