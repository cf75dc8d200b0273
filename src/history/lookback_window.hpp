// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>

#include "history/certificate_series.hpp"

namespace driftwarden {

// From the last good certificate of an instrument to the one that found it wrong. Certificates by their place in the
// book.
struct LookbackWindow {
  Row instrument = no_row;
  std::int32_t found = -1;
  std::int32_t last_good = -1;        // the newest before that left it within its tolerance; -1: none in the book
  Day from = no_day;                  // the day of last_good; no_day: open
  Day until = no_day;                 // the day of found: what was read on it is no longer in the window
  CalibratedPoint worst;              // as found
  double as_found_percent = missing;  // its error, of the true flow
  double as_found_expanded_percent = missing;  // U of that (k = 2), by the certificate that found it
  Tolerance tolerance;                         // in percent; of none the last certificate before counts as good

  bool is_beyond_tolerance() const { return is_beyond(as_found_percent, tolerance); }
};

// The window back from a certificate; nothing where it has no date or no indication as found.
std::optional<LookbackWindow> window_of(const Screening& screening, std::int32_t found);

// The newest window, up to a day, of an instrument that was found beyond its tolerance.
std::optional<LookbackWindow> newest_window(const Screening& screening, Row instrument, Day as_of);

}  // namespace driftwarden
