// SPDX-License-Identifier: MIT
#pragma once

#include <optional>

#include "assessment/sample_assessment.hpp"

namespace driftwarden {

// How far the conditions of sampling were from those at a check of the pump, and what that does to the flow of a pump
// that does not compensate for them.
struct PumpConditions {
  const ReadingSet* set = nullptr;  // the counting set that is farthest off
  double warmer_k = 0;              // sampling above the set
  double denser = 0;                // pressure while sampling above that at the set, ratio
  double flow_change = 0;           // of the flow from the check to sampling, ratio, were it not compensated for
};

// What a pump that does not compensate makes of other conditions than at its check.
//
//   Q_s / Q_c = √( T_s / T_c · P_c / P_s )
//
//   Q, T, P  flow, kelvin, absolute pressure; s while sampling, c at the check. What is not known counts as unchanged
//   Source   29 CFR 1926.1101 Appendix B, closing section: for pumps that do not compensate, where temperature or
//            pressure differ by more than 5 %; its equation is lost in the text that was read, the root is from memory
//   Valid    a pump that holds the pressure across an orifice, or shows its flow on a rotameter
//   Example  checked at 20 °C, 85 kPa, sampling at 5 °C, 85 kPa: √(278.15 / 293.15) = 0.97408, 2.6 % less
double uncompensated_flow(double temperature_ratio, double pressure_ratio);

// Whether the pump compensates, as its instrument says, else the book; nothing where nobody says.
std::optional<bool> compensates(const Book& book, Row pump);

// Nothing where both sets were within 5 K and 2 % of the sample's own conditions, or these are not known.
std::optional<PumpConditions> far_from_its_check(const AssessmentBasis& basis, const SampleAssessment& figures);

}  // namespace driftwarden
