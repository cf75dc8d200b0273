// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/budget.hpp"
#include "assessment/flow_between.hpp"

namespace driftwarden {

// The standard uncertainty of what lies anywhere within a half-width, each place as likely (JCGM 100 (GUM) 4.3.7).
double rectangular(double half_width);

// What one input does to the things that all four figures are made of, per unit of the input.
struct Effect {
  double on_pre = 0;           // L/min
  double on_post = 0;          // L/min
  double on_flow_between = 0;  // L/min of the flow during the sample
  double on_minutes = 0;       // min
  double on_reference = 0;     // relative change of the conversion to reference conditions
};

// What an input does to a function of both flows. Equal shares of both cancel in a ratio: what is left is only
// rounding.
double weighted(FlowWeights weights, double on_pre, double on_post);

// A sample's budget while its inputs are entered, one after another: how its figures follow each is worked out here.
class BudgetSheet {
 public:
  BudgetSheet(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget);
  // Of the flow by the shares of the course, whatever the practice.
  static BudgetSheet along_the_course(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget);

  const AssessmentBasis& basis() const { return basis_; }
  const Settings::Uncertainty& said() const { return basis_.book.settings.uncertainty; }
  const SampleAssessment& figures() const { return f_; }
  const ReadingSet& pre() const { return *f_.pre_set(); }
  const ReadingSet& post() const { return *f_.post_set(); }
  bool follows_line() const { return follows_line_; }
  const Instrument& calibrator_of(const ReadingSet& set) const { return basis_.book.instruments[set.rows.calibrator]; }

  // Calls look(set, share in the flow) for each field set on the course that the flow follows.
  template <class Look>
  void each_field_set(Look look) const {
    if (!follows_line_) return;
    for (const CourseSet& each : f_.course.sets) {
      if (each.set != f_.pre && each.set != f_.post) look(f_.sets[static_cast<std::size_t>(each.set)], each.share);
    }
  }

  void add(BudgetSource source, double estimate, double u, Distribution distribution, double dof, const Effect& effect);
  void add_rectangular(BudgetSource source, double estimate, double half_width, const Effect& effect) {
    add(source, estimate, rectangular(half_width), Distribution::rectangular, infinite_dof, effect);
  }
  // An input of unknown uncertainty. An essential one forbids a statement on each figure it acts on.
  void lack(BudgetSource source, const Effect& effect, bool is_essential, double within = missing);
  void tell(const FlowBetween& told) { budget_.flow_between = told; }

 private:
  BudgetSheet(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget, bool follows_line);
  void weigh();
  void weigh_by_course();
  void sensitivities(const Effect& effect, double (&c)[budget_figures]) const;

  const AssessmentBasis& basis_;
  const SampleAssessment& f_;
  Budget& budget_;
  const bool follows_line_;
  const double to_reference_;
  double flow_of_pre_ = 0;
  double flow_of_post_ = 0;
  FlowWeights drift_;
};

}  // namespace driftwarden
