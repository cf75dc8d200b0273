// SPDX-License-Identifier: MIT
#pragma once

#include "history/series.hpp"
#include "verdict/screening.hpp"

namespace driftwarden {

// How much an instrument showed more than the references that it was checked against: one series "checked-against NAME"
// for each, in percent of the reference, of a thermometer in K, of a barometer in kPa. `starts` are the phases the book
// states for it.
std::vector<Series> check_series(const Screening& screening, Row instrument, Day as_of,
                                 const std::vector<PhaseStart>& starts = {});

}  // namespace driftwarden
