// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "quantity/number.hpp"
#include "record/instrument.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// One row of received.csv: rows that were taken into the book from elsewhere, who did it and when.
struct Receipt {
  Moment received = no_moment;
  std::string by;
  std::string file;             // into which they were written, "readings/received-2026-11-30-4f2a9c1b7e55.csv"
  std::string rows;             // how many
  std::string form;             // that they were typed into; may be empty
  std::string from;             // the file they came in
  std::string sha256;           // of that file
  double struck_out = missing;  // how many of the rows came struck out; missing: none, or nobody says
  Moment first = no_moment;     // the earliest and the latest time in them
  Moment last = no_moment;
  RowPlace place;
};

}  // namespace driftwarden
