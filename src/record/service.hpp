// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "record/instrument.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// One row of service.csv: something done to an instrument after which it may behave otherwise than before.
struct Service {
  Moment serviced = no_moment;
  Row instrument = no_row;
  std::string what;
  std::string by;
  std::string note;
  RowPlace place;
};

}  // namespace driftwarden
