// SPDX-License-Identifier: MIT
#include "correction/due.hpp"

#include <cmath>
#include <limits>

namespace driftwarden {

Day due_day(const Certificate& certificate, const Instrument& instrument) {
  if (certificate.due != no_day) return certificate.due;
  if (certificate.calibrated == no_day || !instrument.interval_d) return no_day;
  const double due = certificate.calibrated + std::floor(*instrument.interval_d);
  const bool is_a_day = due > std::numeric_limits<Day>::min() && due <= std::numeric_limits<Day>::max();
  return is_a_day ? static_cast<Day>(due) : no_day;
}

}  // namespace driftwarden
