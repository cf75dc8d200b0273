// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "statistics/true_values.hpp"
#include "verdict/screening.hpp"

namespace driftwarden {

// What becomes of a rule's samples in a year, in the mean.
struct YearOfRisk {
  double guard = 0;      // guard band, in U
  std::size_t more = 0;  // readings more in each set than were taken
  double beyond = 0;     // samples whose true value is beyond the limit
  double passed = 0;     // of them, those that pass
  double held_up = 0;    // good ones that lie in the guard band
  double not_kept = 0;   // good ones that do not keep the limit
};

// What the book's own readings make of the same, each by itself and without a prior.
struct RiskOfReadings {
  std::size_t pass = 0;      // keep the limit, outside any guard band
  double passed_beyond = 0;  // the sum of their probabilities to be beyond it
  std::size_t fail = 0;
  double failed_within = 0;
};

// Global risk of one rule on one book's fleet (JCGM 106:2012 clause 9).
struct RuleRisk {
  std::uint32_t rule = 0;     // of the screening's
  std::size_t held = 0;       // samples with a figure that is known to an uncertainty
  std::size_t without_u = 0;  // samples whose figure it was held to, and no uncertainty of it can be stated
  double a_year = 0;          // samples, at the pace of the days looked at
  TrueValues prior;           // in the inside unit of the figure, as all that follow
  double u_least = missing;   // what the samples' figures are known to
  double u_median = missing;
  double u_most = missing;
  RiskOfReadings readings;
  std::vector<YearOfRisk> years;  // as it is first; none where there are too few figures
};

struct FleetRisk {
  Day from = no_day;  // of the samples looked at: a year up to the newest
  Day to = no_day;
  std::vector<RuleRisk> rules;  // those that judge samples by what was read, in order
};

// What is tried beside what is.
struct RiskTrial {
  double guard = 1;
  std::size_t more = 2;
};

// Of each rule in force that judges samples by a figure which is read and known to an uncertainty: how many samples a
// year are truly beyond the limit, pass, or are held up (samples a year, in the mean), as the book judges and with what
// is tried. Samples of the year up to the newest one that has come by a day; of more than a thousand, evenly spread
// ones.
//
//   Source   JCGM 106:2012 clause 9 (statistics/global_risk), with true values spread as statistics/true_values has it
//   Valid    each rule by itself; figures of one fleet that goes on as it is; no years where fewer than
//            fewest_for_true_values figures are known
FleetRisk fleet_risk(const Screening& screening, Day as_of, const RiskTrial& trial);

}  // namespace driftwarden
