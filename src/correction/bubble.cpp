// SPDX-License-Identifier: MIT
#include "correction/bubble.hpp"

#include "correction/vapour_pressure.hpp"
#include "record/sample.hpp"

namespace driftwarden {

double bubble_factor(BubbleHumidity kind, Conditions use, RelativeHumidity ambient) {
  if (kind == BubbleHumidity::none) return 1;
  const double vapour_in_tube_kpa = saturation_vapour_pressure(use.temperature).value;
  const double vapour_in_room_kpa = kind == BubbleHumidity::ambient ? ambient.value * vapour_in_tube_kpa : 0;
  const double pressure_kpa = use.pressure.value;
  if (!(pressure_kpa > vapour_in_tube_kpa && pressure_kpa > vapour_in_room_kpa)) return missing;
  return kind == BubbleHumidity::ambient ? ambient_factor(pressure_kpa, vapour_in_tube_kpa, ambient.value)
                                         : dry_factor(pressure_kpa, vapour_in_tube_kpa);
}

}  // namespace driftwarden
