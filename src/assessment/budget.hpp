// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <limits>
#include <string_view>
#include <vector>

#include "assessment/drift.hpp"
#include "assessment/sample_assessment.hpp"
#include "statistics/propagation.hpp"

namespace driftwarden {

// What a figure's uncertainty comes from. Each is one independent input; what is common to pre and post, as one
// calibrator is, is one input that acts on both.
enum class BudgetSource : std::uint8_t {
  pre_repeatability,
  post_repeatability,
  pre_pooled_repeatability,  // of a single reading: the calibrator's scatter in its sets before
  post_pooled_repeatability,
  certificate,      // one certificate for both sets
  pre_certificate,  // or one each
  post_certificate,
  interpolation,  // between the certificate's points; common or one each, likewise
  pre_interpolation,
  post_interpolation,
  calibrator_drift,  // what its error may have moved since the certificate; common or one each, likewise
  pre_calibrator_drift,
  post_calibrator_drift,
  pre_resolution,
  post_resolution,
  flow_between,         // the flow between two checks is not known
  field_difference,     // the field sets put the mean flow elsewhere than the practice in force
  field_repeatability,  // of the field sets on the course, where the flow is the mean along it; likewise
  field_pooled_repeatability,
  field_certificate,  // of calibrators that read neither pre nor post
  field_interpolation,
  field_calibrator_drift,
  field_resolution,
  pauses,             // when they were
  rotameter_as_read,  // a rotameter's reading away from its scale's conditions stands for the flow: never a line, only
                      // a lack; likewise
  bubble_humidity,    // how moist the bubble's gas was, and with it the correction that is made or left out
  reading_temperature,
  reading_pressure,
  sampling_temperature,
  sampling_pressure,
  altitude_pressure,  // where the pressure of both is that of the site's altitude
  start_time,
  stop_time,
  count_
};

enum class Distribution : std::uint8_t { student_t, normal, rectangular, difference };

// The figures a budget is about; flow and volumes as measured, also where the volume is formed by convention.
enum class BudgetFigure : std::uint8_t { drift, flow, volume, volume_reference, count_ };
inline constexpr std::size_t budget_figures = static_cast<std::size_t>(BudgetFigure::count_);

std::string_view to_text(BudgetSource source);
std::string_view to_text(Distribution distribution);
std::string_view unit_of(BudgetSource source);  // of its estimate and standard uncertainty; "1" for a ratio
std::string_view unit_of(BudgetFigure figure);  // of a figure; "1" for the drift, a ratio

// One input of a budget.
struct BudgetLine {
  BudgetSource source = BudgetSource::count_;
  double estimate = 0;
  double u = 0;  // standard uncertainty, in unit_of(source)
  Distribution distribution = Distribution::normal;
  double dof = 0;
  double sensitivity[budget_figures] = {};  // change of each figure per unit of the input
  double on_pre = 0;                        // and of the pre and post flow, L/min
  double on_post = 0;

  double contribution(BudgetFigure figure) const { return sensitivity[static_cast<std::size_t>(figure)] * u; }
};

// What is not known of an input that would belong into the budget.
struct BudgetLack {
  BudgetSource source = BudgetSource::count_;
  bool is_essential[budget_figures] = {};  // without it no uncertainty of the figure is stated
  double on_pre = 0;                       // as of a line; 0 where the input is not essential
  double on_post = 0;
  double within = missing;  // how far off it may be by what the book does say, in unit_of(source)
};

// What the line "flow between the checks" rests on. Each span between two looks at the flow counts with half their
// distance or, if more, with what such a pump's flow does between them: told by its earlier uses, or stated.
struct FlowBetween {
  enum class From : std::uint8_t { distance, earlier_uses, stated };
  From from = From::distance;  // what most of it comes from
  DriftSpread earlier;         // drifts of the pump's uses closed before this sample's post set
};

inline constexpr double infinite_dof = std::numeric_limits<double>::infinity();
inline constexpr double budget_coverage = 0.95;  // of every expanded uncertainty

struct FigureUncertainty {
  double u = missing;    // combined standard uncertainty, in the figure's unit
  double dof = missing;  // effective degrees of freedom, not rounded
  double coverage_factor = missing;
  double expanded = missing;  // U, at 95 %
};

// What is stated of a combined uncertainty, at 95 %; missing where that is.
FigureUncertainty stated(const CombinedUncertainty& combined);

// The uncertainty budget of a sample's figures.
//
//   y = f(x1 … xm)     u_c² = Σ (c_i u_i)²     ν_eff = u_c⁴ / Σ ((c_i u_i)⁴ / ν_i)     U = t_0.975(⌊ν_eff⌋) · u_c
//
//   c_i  sensitivity ∂f/∂x_i     u_i  standard uncertainty     ν_i  degrees of freedom
//   Source   JCGM 100 (GUM) 5.1.2, G.4, G.6.4
//   Valid    first order; the inputs independent (what pre and post share is one input); docs/uncertainty.md lists the
//            assumptions
//   Example  the worked budget in tests/assessment/budget_test.cpp
struct Budget {
  std::vector<BudgetLine> lines;
  std::vector<BudgetLack> lacks;
  FlowBetween flow_between;
  FigureUncertainty of[budget_figures];

  void clear();
  const FigureUncertainty& about(BudgetFigure figure) const { return of[static_cast<std::size_t>(figure)]; }
};

// The uncertainty of another function of the pre and post flow than those four, from the same inputs.
//
//   u = √ Σ ((w_pre p_i + w_post q_i) u_i)²
//
//   w        weights: change of the function per L/min of the pre and of the post flow
//   p, q     change of these flows per unit of input i, L/min     u_i  its standard uncertainty
//   Source   JCGM 100 (GUM) 5.1.2, the chain rule; degrees of freedom and U as of Budget
//   Valid    missing where an input is missing that it leans on, or where there is no budget
//   Example  the change from pre to post in L/min has -1 and 1: a certificate common to both hardly acts on it
FigureUncertainty uncertainty_of_change(const Budget& budget, FlowWeights weights);

// The same of the mean flow, where the volume is formed with another one: half of what acts on either check, and what
// the flow did between them.
FigureUncertainty uncertainty_of_mean_flow(const Budget& budget);

// The same of a function of the flows of any two sets of a sample, weighed in this order, from the inputs that act on
// them; both may be one set. Missing where a flow is.
struct SetPair {
  const ReadingSet& first;
  const ReadingSet& second;
};
FigureUncertainty uncertainty_of_sets(const AssessmentBasis& basis, const SampleAssessment& figures,
                                      const SetPair& sets, FlowWeights weights);

// The same of a field set's flow less that of its share of the pre and the post flow: weights of these, and 1 of its
// own, each times `scale`.
FigureUncertainty uncertainty_from_both(const AssessmentBasis& basis, const SampleAssessment& figures,
                                        const ReadingSet& field, FlowWeights weights, double scale);

// Works out the uncertainties of a budget's four figures from its lines.
void combine_lines(Budget& budget);

// Fills `budget` (its memory is used again) for one assessed sample.
void work_out_budget(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget);

}  // namespace driftwarden
