// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "record/instrument.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// One row of checks.csv: an instrument held against another one that served as the reference. Flows in L/min,
// temperatures in K, pressures in kPa, as the instrument measures.
struct BenchCheck {
  Moment checked = no_moment;
  Row instrument = no_row;
  Row against = no_row;
  double shown = 0;
  double reference = 0;
  std::string by;
  std::string note;
  RowPlace place;
};

}  // namespace driftwarden
