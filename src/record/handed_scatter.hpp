// SPDX-License-Identifier: MIT
#pragma once

#include "record/moment.hpp"
#include "record/reading.hpp"

namespace driftwarden {

// One row of pooled.csv, which only parts of a split book have: how a calibrator had scattered, by the moment of a
// single reading, in the sets of the whole book.
struct HandedScatter {
  Row calibrator = no_row;
  Moment before = no_moment;
  double s = 0;  // pooled, ratio
  double dof = 0;
};

}  // namespace driftwarden
