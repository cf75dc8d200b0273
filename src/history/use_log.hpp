// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>
#include <vector>

#include "history/series.hpp"
#include "verdict/screening.hpp"

namespace driftwarden {

// One set of readings on a pump, worked out.
struct PumpCheck {
  Row pump = no_row;
  Row sample = no_row;  // the first that leans on it; no_row: none does
  Stage stage = Stage::pre;
  Row calibrator = no_row;
  Row certificate = no_row;  // that corrected it, of the book's
  Moment first = no_moment;
  Moment last = no_moment;
  std::size_t n = 0;
  double flow_l_min = missing;
  double s_l_min = missing;
  double expanded_uncertainty_l_min = missing;
  double nominal_l_min = missing;
  bool is_void = false;  // every reading of it is marked void
};

// One sample drawn with a pump.
struct PumpUse {
  Row pump = no_row;
  Row sample = no_row;
  Moment started = no_moment;
  Moment stopped = no_moment;
  double minutes = missing;
  double drift = missing;   // ratio
  std::size_t n = 0;        // readings behind the drift
  bool is_void = false;     // a fault was noted: the drift says nothing of the pump's habit
  Row calibrator = no_row;  // read with before and after
  Row calibrator_after = no_row;
  Row certificate = no_row;  // that corrected the readings before and after
  Row certificate_after = no_row;
};

// What rules hold a pump's figures to, in percent: those that applied to its last sample, the narrowest.
struct PumpTolerances {
  Tolerance deviation;  // of the pre flow from nominal
  Tolerance drift;
};

// What a book tells of its pumps, by pump and time.
struct UseLog {
  std::vector<PumpCheck> checks;
  std::vector<PumpUse> uses;
  std::vector<PumpTolerances> tolerances;  // by instrument

  std::span<const PumpCheck> checks_of(Row pump) const;
  std::span<const PumpUse> uses_of(Row pump) const;
};

// Expanded uncertainty of a set's mean flow.
//
//   U = 2 √( s²/n + (q · U_c / (k · q_c))² )
//
//   s, n     standard deviation and number of the set's readings, n ≥ 2      q  their mean
//   U_c, k, q_c  expanded uncertainty, coverage factor and true flow of the certificate's point nearest to q
//   Source   GUM (JCGM 100) 4.2.3, 5.1.2; coverage factor 2 as a convention, not from the degrees of freedom
//   Valid    for the bars of a chart; a sample's own budget is more exact. Missing for a single reading or where the
//            certificate states no uncertainty; k is 2 where the certificate has none
//   Example  2.000 L/min, s 0.004 of n 4, certificate 0.7 % (k 2)  ->  0.01456 L/min
double check_uncertainty(const MeanAndSpread& flow, const Certificate& certificate);

// The name of the sample that a set is of; "" of none.
std::string name_of_sample(const Screening& screening, Row sample);

// Everything up to the end of a day. Sets that several samples lean on are there once. Those on which none does are
// there, too; their nominal flow is the pump's, where all its samples have one and the same.
UseLog use_log_of(const Screening& screening, Day as_of);

}  // namespace driftwarden
