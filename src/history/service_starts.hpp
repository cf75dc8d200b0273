// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "book/book.hpp"
#include "history/series.hpp"

namespace driftwarden {

// When the book says that something was done to an instrument, up to the end of a day. On a series by day, what stands
// on the day of the service is still from before it: an instrument is calibrated as found, and then serviced.
struct ServiceStarts {
  std::vector<PhaseStart> by_time;
  std::vector<PhaseStart> by_day;
};
ServiceStarts service_starts(const Book& book, Row instrument, Day as_of);

}  // namespace driftwarden
