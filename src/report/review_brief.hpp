// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/review.hpp"

namespace driftwarden {

// A review in ten lines at most, to send as mail: of which days, how many things there are to do, the most urgent of
// them, the verdicts, and what the page has beyond that. Names of the book stand in it as they are.
std::string review_brief(const Screening& screening, const Review& review);

// What falls due, as a calendar (RFC 5545): each calibration that is due, and each action that has a day. An entry
// keeps its UID when its day moves, so that a calendar that reads the file again moves it, too. The same book and day
// give the same bytes.
std::string review_calendar(const Screening& screening, const Review& review, Day as_of);

}  // namespace driftwarden
