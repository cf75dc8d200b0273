// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

// What the samples tell of an instrument's use.
struct InstrumentUse {
  std::size_t recent_samples = 0;   // of the days reviewed, drawn with it or read with it
  std::size_t overdue_samples = 0;  // read with it when its certificate was overdue
  Day last_used = no_day;
};

// How an instrument stands on a day.
struct InstrumentStanding {
  Row instrument = no_row;
  const Certificate* newest = nullptr;  // calibrated on or before the day; nullptr: none
  Day due = no_day;                     // no_day: nobody says
  bool is_in_service = true;
  InstrumentUse use;

  bool was_out() const { return use.recent_samples > 0; }
  // A pump in the cupboard waits; what is calibrated and due is due wherever it stands.
  bool is_worth_a_line(const Book& book) const;
  bool has_to_be_calibrated(const Book& book) const;  // a calibrator, or anything with a certificate or an interval
};

// Counts one judged sample for the instruments that took part in it.
void count_use(std::vector<InstrumentUse>& uses, const Screening& screening, const SampleResult& result, Day day,
               bool is_recent);

// How all instruments of the book stand, in its order. `uses` is by instrument.
std::vector<InstrumentStanding> standings_of(const Screening& screening, const std::vector<InstrumentUse>& uses,
                                             Day as_of);

}  // namespace driftwarden
