// SPDX-License-Identifier: MIT
#pragma once

#include "book/book.hpp"

namespace driftwarden {

// The longest time that a sample shares with another on the same pump: how much, and with which.
struct Overlap {
  double minutes = missing;
  Row with = no_row;  // the first in the book of those that it shares most with; no_row: none
};

// Of each sample; missing where it has no pump or no times, and of a blank, through which nothing is drawn. Half-open
// intervals: one that starts as another stops shares nothing.
Column<Overlap> overlaps_of(const SampleTable& samples, std::size_t instruments);

// The time that two samples share, from the later start to the earlier stop.
struct SharedTime {
  Moment from = no_moment;
  Moment to = no_moment;
};
SharedTime shared_time(const SampleTable& samples, Row one, Row other);

}  // namespace driftwarden
