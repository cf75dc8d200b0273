// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/budget_sheet.hpp"

namespace driftwarden {

// What the calibrators of the pre and post set and their readings bring into a budget: repeatability, certificate,
// bow between its points, what its error may have moved since, resolution.
void enter_calibrators(BudgetSheet& sheet);

// How well a set's mean is known by its readings' scatter. A single reading tells nothing of it; how its calibrator
// scattered before does.
struct Repeatability {
  double u = missing;  // L/min; missing where nothing tells
  double dof = 0;
  bool is_pooled = false;

  bool is_known() const { return dof > 0; }
};
Repeatability repeatability_of(const BudgetSheet& sheet, const ReadingSet& set);

// Standard uncertainty by the certificate of a set's calibrator, ratio; missing where it states none.
double stated_uncertainty(const BudgetSheet& sheet, const ReadingSet& set);

// What the error of a set's calibrator may have moved since its certificate.
CalibratorKnowledge::MovedSince moved_since(const BudgetSheet& sheet, const ReadingSet& set);

// What one step of the indication does to the flow, through the slope of the error curve.
double gain(const BudgetSheet& sheet, const ReadingSet& set);

// The standard uncertainty of a display that is rounded to a step.
double of_a_step(double step);

// What a relative error that one certificate's sets share, known to u_of(set), does to the flow through the field
// sets; per unit of u.
template <class KnownTo>
double on_field_flow(const BudgetSheet& sheet, std::int32_t certificate, double u, KnownTo u_of) {
  double effect = 0;
  sheet.each_field_set([&](const ReadingSet& set, double share) {
    if (set.certificate == certificate && u > 0) effect += share * set.flow.mean * u_of(set) / u;
  });
  return effect;
}

}  // namespace driftwarden
