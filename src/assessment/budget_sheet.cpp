// SPDX-License-Identifier: MIT
#include "assessment/budget_sheet.hpp"

#include <cmath>
#include <numbers>

#include "assessment/drift.hpp"
#include "statistics/distribution_shape.hpp"

namespace driftwarden {

double rectangular(double half_width) { return standard_uncertainty(DistributionShape::rectangular, half_width); }

namespace {

// What cancels does so to the rounding.
double sum_of(double a, double b, double c = 0) {
  const double sum = a + b + c;
  return std::abs(sum) <= 1e-12 * (std::abs(a) + std::abs(b) + std::abs(c)) ? 0 : sum;
}

}  // namespace

double weighted(FlowWeights weights, double on_pre, double on_post) {
  return sum_of(weights.pre * on_pre, weights.post * on_post);
}

BudgetSheet::BudgetSheet(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget,
                         bool follows_line)
    : basis_(basis),
      f_(figures),
      budget_(budget),
      follows_line_(follows_line),
      to_reference_(figures.measured_volume_reference_l / figures.measured_volume_l) {}

BudgetSheet::BudgetSheet(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget)
    : BudgetSheet(basis, figures, budget, follows(basis.practice.field_sets, figures.course)) {
  weigh();
}

BudgetSheet BudgetSheet::along_the_course(const AssessmentBasis& basis, const SampleAssessment& figures,
                                          Budget& budget) {
  BudgetSheet sheet(basis, figures, budget, true);
  sheet.weigh_by_course();
  return sheet;
}

void BudgetSheet::weigh_by_course() {
  flow_of_pre_ = f_.course.share_of(f_.pre);
  flow_of_post_ = f_.course.share_of(f_.post);
}

// How flow, and drift, follow the pre and post flow.
void BudgetSheet::weigh() {
  const double q1 = f_.pre_l_min;
  const double q2 = f_.post_l_min;
  switch (basis_.practice.flow_for_volume) {
    case FlowForVolume::pre:
      flow_of_pre_ = 1;
      break;
    case FlowForVolume::lower:
      (q1 <= q2 ? flow_of_pre_ : flow_of_post_) = 1;
      break;
    case FlowForVolume::mean:
    case FlowForVolume::nominal:
      flow_of_pre_ = flow_of_post_ = 0.5;
      if (follows_line_) weigh_by_course();
      break;
  }
  drift_ = drift_weights(q1, q2, basis_.practice.drift_base, f_.nominal_l_min);
}

void BudgetSheet::sensitivities(const Effect& e, double (&c)[budget_figures]) const {
  const double flow = sum_of(flow_of_pre_ * e.on_pre, flow_of_post_ * e.on_post, e.on_flow_between);
  const double volume = flow * f_.minutes + f_.measured_flow_l_min() * e.on_minutes;
  c[0] = weighted(drift_, e.on_pre, e.on_post);
  c[1] = flow;
  c[2] = volume;
  c[3] = volume * to_reference_ + f_.measured_volume_reference_l * e.on_reference;
}

void BudgetSheet::add(BudgetSource source, double estimate, double u, Distribution distribution, double dof,
                      const Effect& effect) {
  BudgetLine line{source, estimate, u, distribution, dof, {}, effect.on_pre, effect.on_post};
  sensitivities(effect, line.sensitivity);
  budget_.lines.push_back(line);
}

void BudgetSheet::lack(BudgetSource source, const Effect& effect, bool is_essential, double within) {
  BudgetLack lack{source, {}, is_essential ? effect.on_pre : 0, is_essential ? effect.on_post : 0, within};
  double c[budget_figures];
  sensitivities(effect, c);
  for (std::size_t y = 0; y < budget_figures; ++y) lack.is_essential[y] = is_essential && c[y] != 0;
  budget_.lacks.push_back(lack);
}

}  // namespace driftwarden
