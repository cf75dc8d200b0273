// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

#include "assessment/sample_assessment.hpp"

namespace driftwarden {

// Standard uncertainty of a mass that is the difference of two weights of one medium.
//
//   u = √(u(W_after)² + u(W_before)²)
//
//   u(W)     standard uncertainty of a weight, mg
//   Source   JCGM 100 (GUM) 5.1.2, m = W_after - W_before, of which the sensitivities are 1 and -1
//   Valid    the two taken as independent; what they share, as the balance's own error, cancels in truth, so that this
//            is too much rather than too little
//   Example  0.0015 mg and 0.0020 mg  ->  0.0025 mg
double uncertainty_of_difference(double u_after_mg, double u_before_mg);

// Standard uncertainty of a weight by the certificate of its balance.
//
//   u = (1 - t) U_1/k + t U_2/k          t = (W - W_1) / (W_2 - W_1)
//
//   W_1, W_2   references of the points next below and above the weight W, mg     U  their expanded uncertainties, mg
//   k          the certificate's coverage factor
//   Source   linear interpolation, as of the uncertainty of a flow between two points (docs/uncertainty.md)
//   Valid    outside of the points that of the nearest; missing where one of them states none
//   Example  0.0030 mg at 10 mg, 0.0050 mg at 20 mg, k = 2: at 15 mg  ->  0.0020 mg
double uncertainty_of_weight(const Certificate& certificate, double weight_mg);

// The balance that a medium was weighed on, and what its certificates say on the days of the two weights.
struct Weighing {
  struct Weight {
    Day day = no_day;               // that counts
    std::int32_t certificate = -1;  // in force on it: its place among the book's, or -1
    double u_mg = missing;          // by it
  };
  Row balance = no_row;  // of instruments.csv; no_row: no more is known
  Weight before;
  Weight after;

  bool has_days() const { return before.day != no_day && after.day != no_day; }
  bool lacks_certificate() const { return has_days() && (before.certificate < 0 || after.certificate < 0); }
};

// The weight before counts as taken on the day of the weight after, where nobody says when; and that on the day of the
// report.
Weighing weighing_of(const AssessmentBasis& basis, const LaboratoryResult& result);

// From the day that the balance was due to the day of a weight, the more of the two, in minutes; 0 or less: in date.
// Missing where a day is not known, no certificate was in force, or nothing says when it was due.
double overdue_min(const AssessmentBasis& basis, const Weighing& weighing);

}  // namespace driftwarden
