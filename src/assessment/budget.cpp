// SPDX-License-Identifier: MIT
#include "assessment/budget.hpp"

#include <algorithm>
#include <array>

#include "assessment/budget_of_calibrators.hpp"
#include "assessment/budget_of_conditions.hpp"
#include "assessment/budget_of_field_sets.hpp"
#include "assessment/budget_sheet.hpp"
#include "statistics/propagation.hpp"

namespace driftwarden {
namespace {

template <class Sensitivity>
FigureUncertainty combined(const Budget& budget, Sensitivity sensitivity) {
  std::array<UncertaintyContribution, static_cast<std::size_t>(BudgetSource::count_)> parts;
  std::ranges::transform(budget.lines, parts.begin(), [&](const BudgetLine& line) {
    return UncertaintyContribution{line.u, sensitivity(line), line.dof};
  });
  return stated(combined_uncertainty(std::span(parts.data(), budget.lines.size())));
}

void enter_times(BudgetSheet& sheet) {
  sheet.add_rectangular(BudgetSource::start_time, 0, sheet.said().time_min, {.on_minutes = -1});
  sheet.add_rectangular(BudgetSource::stop_time, 0, sheet.said().time_min, {.on_minutes = 1});
}

void combine(Budget& budget, std::size_t y) {
  for (const BudgetLack& lack : budget.lacks) {
    if (lack.is_essential[y]) return;
  }
  budget.of[y] = combined(budget, [y](const BudgetLine& line) { return line.sensitivity[y]; });
}

void make(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget) {
  BudgetSheet sheet(basis, figures, budget);
  enter_calibrators(sheet);
  enter_field(sheet);
  enter_conditions(sheet);
  enter_times(sheet);
  combine_lines(budget);
}

}  // namespace

FigureUncertainty stated(const CombinedUncertainty& combined) {
  FigureUncertainty of;
  if (is_missing(combined.u)) return of;
  of.u = combined.u;
  of.dof = combined.dof;
  of.expanded = expanded_uncertainty(combined, budget_coverage);
  of.coverage_factor = combined.u > 0 ? of.expanded / combined.u : missing;
  return of;
}

void Budget::clear() {
  lines.clear();
  lacks.clear();
  flow_between = {};
  std::fill(std::begin(of), std::end(of), FigureUncertainty{});
}

void combine_lines(Budget& budget) {
  for (std::size_t y = 0; y < budget_figures; ++y) combine(budget, y);
}

FigureUncertainty uncertainty_of_change(const Budget& budget, FlowWeights weights) {
  for (const BudgetLack& lack : budget.lacks) {
    if (weighted(weights, lack.on_pre, lack.on_post) != 0) return {};
  }
  if (budget.lines.empty()) return {};
  return combined(budget, [&](const BudgetLine& line) { return weighted(weights, line.on_pre, line.on_post); });
}

// The flow between the checks reaches half as far about their mean as about either.
FigureUncertainty uncertainty_of_mean_flow(const Budget& budget) {
  for (const BudgetLack& lack : budget.lacks) {
    if (lack.on_pre != 0 || lack.on_post != 0) return {};
  }
  if (budget.lines.empty()) return {};
  return combined(budget, [](const BudgetLine& line) {
    const double between = line.source == BudgetSource::flow_between       ? 0.5
                           : line.source == BudgetSource::field_difference ? 1
                                                                           : 0;
    return (line.on_pre + line.on_post) / 2 + between;
  });
}

// A pair of sets has a budget like that of pre and post.
FigureUncertainty uncertainty_of_sets(const AssessmentBasis& basis, const SampleAssessment& figures,
                                      const SetPair& sets, FlowWeights weights) {
  SampleAssessment of_pair = figures;
  of_pair.pre = static_cast<std::int32_t>(&sets.first - figures.sets.data());
  of_pair.post = static_cast<std::int32_t>(&sets.second - figures.sets.data());
  of_pair.course.clear();
  of_pair.pre_l_min = sets.first.flow.mean;
  of_pair.post_l_min = sets.second.flow.mean;
  if (is_missing(of_pair.pre_l_min) || is_missing(of_pair.post_l_min)) return {};
  Budget budget;
  make(basis, of_pair, budget);
  return uncertainty_of_change(budget, weights);
}

// A course by these weights has a budget like that along the line.
FigureUncertainty uncertainty_from_both(const AssessmentBasis& basis, const SampleAssessment& figures,
                                        const ReadingSet& field, FlowWeights weights, double scale) {
  if (is_missing(figures.pre_l_min) || is_missing(figures.post_l_min)) return {};
  SampleAssessment weighed = figures;
  weighed.course.sets = {{.set = figures.pre, .share = scale * weights.pre},
                         {.set = static_cast<std::int32_t>(&field - figures.sets.data()), .share = scale},
                         {.set = figures.post, .share = scale * weights.post}};
  Budget budget;
  BudgetSheet sheet = BudgetSheet::along_the_course(basis, weighed, budget);
  enter_calibrators(sheet);
  enter_field_sets(sheet);
  enter_conditions(sheet);
  combine(budget, static_cast<std::size_t>(BudgetFigure::flow));
  return budget.about(BudgetFigure::flow);
}

void work_out_budget(const AssessmentBasis& basis, const SampleAssessment& figures, Budget& budget) {
  budget.clear();
  const bool has_flows = !is_missing(figures.pre_l_min) && !is_missing(figures.post_l_min);
  if (has_flows && !is_missing(figures.measured_volume_l)) make(basis, figures, budget);
}

}  // namespace driftwarden
