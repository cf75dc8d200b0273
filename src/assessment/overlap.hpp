// SPDX-License-Identifier: MIT
#pragma once

#include "book/book.hpp"

namespace driftwarden {

// For each sample the longest time, in minutes, that it shares with another sample on the same pump; missing where it
// has no pump or no times, and of a blank, through which nothing is drawn. Half-open intervals: one that starts as
// another stops shares nothing.
Column<double> minutes_shared(const SampleTable& samples, std::size_t instruments);

}  // namespace driftwarden
