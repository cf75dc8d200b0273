// SPDX-License-Identifier: MIT
#include "assessment/laboratory_figures.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "assessment/concentration.hpp"
#include "diagnostic/letters.hpp"
#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

bool is_blank(const Book& book, const LaboratoryResult& result) {
  return book.samples.kind[result.sample] == SampleKind::blank;
}

TextId batch_text(const Book& book, Row sample) { return field(book.samples.batch, sample, TextId{0}); }

void count_blank(BatchBlanks& blanks, const LaboratoryResult& blank, std::uint32_t number) {
  blanks.results.push_back(number);
  if (blanks.problem == no_problem) blanks.problem = blank.problem;
  if (blank.is_less_than()) {
    ++blanks.unseen;
    blanks.unseen_limit = std::fmax(blanks.unseen_limit, blank.limit);
  } else if (is_missing(blank.limit)) {
    ++blanks.without_limit;
  } else if (is_above_limit(blank)) {
    ++blanks.above_limit;
  }
}

MeanAndSpread amounts_of(const Book& book, const BatchBlanks& blanks) {
  std::vector<double> amounts;
  for (const std::uint32_t number : blanks.results) {
    const LaboratoryResult& blank = book.results[number];
    amounts.push_back(blank.is_less_than() ? 0 : blank.found);
  }
  return mean_and_spread(amounts);
}

void count_control(BatchControls& controls, const ControlFilter& control, std::uint32_t number) {
  controls.filters.push_back(number);
  if (controls.problem == no_problem) controls.problem = control.problem;
  const bool is_larger = is_missing(controls.largest_mg) || std::abs(control.change_mg) > std::abs(controls.largest_mg);
  if (is_larger) controls.largest_mg = control.change_mg;
}

MeanAndSpread changes_of(const Book& book, const BatchControls& controls) {
  std::vector<double> changes;
  for (const std::uint32_t number : controls.filters) changes.push_back(book.controls[number].change_mg);
  return mean_and_spread(changes);
}

// A part that is missing leaves all of it missing.
FigureUncertainty combined(std::initializer_list<UncertaintyContribution> parts) {
  return stated(combined_uncertainty(std::span(parts.begin(), parts.size())));
}

UncertaintyContribution of_unseen(const BatchBlanks& blanks) {
  return {uncertainty_of_unseen(blanks.unseen_limit, blanks.unseen, blanks.results.size())};
}

// Unrounded, and not where either is missing. A difference of two weights may miss the limit that it is by its last
// bit.
bool is_below(double amount, double limit) {
  return !is_missing(amount) && !is_missing(limit) && side_of_limit(amount, limit) == Side::below;
}

class LaboratoryFigures {
 public:
  LaboratoryFigures(const ResultIndex& index, const AssessmentBasis& basis, const SampleAssessment& figures,
                    const Budget& budget)
      : index_(index), basis_(basis), f_(figures), budget_(budget) {}

  ResultFigures of(std::uint32_t number) const {
    const LaboratoryResult& result = basis_.book.results[number];
    ResultFigures figures;
    figures.result = number;
    figures.blanks = &index_.blanks_of(result);
    figures.controls = &index_.controls_of(result);
    if (result.problem != no_problem || figures.blanks->problem != no_problem || f_.problem != no_problem)
      return figures;
    figures.weighing = weighing_of(basis_, result);
    figures.overdue_min = overdue_min(basis_, figures.weighing);
    state_found(result, figures);
    figures.is_less_than = result.is_less_than() || is_below(result.found, result.limit);
    if (f_.kind == SampleKind::blank) return figures;
    take_off(result, figures);
    form_concentration(result, figures);
    return figures;
  }

 private:
  // By the row; where that states none, by the certificates of the balance.
  void state_found(const LaboratoryResult& result, ResultFigures& figures) const {
    const double by_balance = uncertainty_of_difference(figures.weighing.after.u_mg, figures.weighing.before.u_mg);
    figures.is_by_balance = is_missing(result.expanded) && !is_missing(by_balance);
    figures.of_found = combined({{figures.is_by_balance ? by_balance : result.standard_uncertainty()}});
  }

  TakenOff taken_off(const LaboratoryResult& result) const {
    if (basis_.practice.blank_correction == BlankCorrection::mean) return TakenOff::blanks;
    const bool is_of_controls = basis_.practice.control_correction == ControlCorrection::mean && result.is_weighed();
    return is_of_controls ? TakenOff::controls : TakenOff::nothing;
  }

  // What the medium of the sample did in the weighing room scatters about their mean as they do.
  void take_off_controls(const LaboratoryResult& result, ResultFigures& figures) const {
    const BatchControls& controls = *figures.controls;
    figures.net = net_amount(result.found, controls.changes.mean);
    if (is_below(figures.net, result.limit)) figures.is_less_than = true;
    const UncertaintyContribution scatter{uncertainty_of_blank(controls.changes.s, controls.changes.n), 1,
                                          static_cast<double>(controls.changes.n) - 1};
    figures.of_blank = combined({scatter});
    figures.of_net = combined({{figures.of_found.u}, scatter});
  }

  void take_off(const LaboratoryResult& result, ResultFigures& figures) const {
    if (result.is_less_than()) return;
    figures.taken_off = taken_off(result);
    if (figures.taken_off == TakenOff::blanks) return take_off_blanks(result, figures);
    if (figures.taken_off == TakenOff::controls) return take_off_controls(result, figures);
    figures.net = result.found;
    figures.of_net = figures.of_found;
  }

  void take_off_blanks(const LaboratoryResult& result, ResultFigures& figures) const {
    const BatchBlanks& blanks = *figures.blanks;
    figures.net = net_amount(result.found, blanks.amounts.mean);
    if (is_below(figures.net, result.limit)) figures.is_less_than = true;
    const UncertaintyContribution scatter{uncertainty_of_blank(blanks.amounts.s, blanks.amounts.n), 1,
                                          static_cast<double>(blanks.amounts.n) - 1};
    figures.of_blank = combined({scatter, of_unseen(blanks)});
    figures.of_net = combined({{figures.of_found.u}, scatter, of_unseen(blanks)});
  }

  void form_concentration(const LaboratoryResult& result, ResultFigures& figures) const {
    const bool is_at_reference = basis_.practice.concentration_volume == ConcentrationVolume::reference;
    const double amount = figures.is_less_than ? result.limit : figures.net;
    const auto by = [&](double volume_l) { return concentration(amount, volume_l, result.is_of_fibres); };
    figures.volume_l = is_at_reference ? f_.volume_reference_l : f_.volume_l;
    const double measured_l = is_at_reference ? f_.measured_volume_reference_l : f_.measured_volume_l;
    figures.concentration = by(figures.volume_l);
    figures.by_measured_volume = by(measured_l);
    // By the nominal flow the volume is another in the ratio of the flows, at either conditions.
    figures.by_nominal_flow = by(measured_l * f_.nominal_l_min / f_.measured_flow_l_min());
    if (figures.is_less_than) return;
    const FigureUncertainty& of_volume =
        budget_.about(is_at_reference ? BudgetFigure::volume_reference : BudgetFigure::volume);
    figures.of_measured =
        combined({{figures.of_net.u, concentration(1, measured_l, result.is_of_fibres), figures.of_net.dof},
                  {of_volume.u, by(measured_l) / measured_l, of_volume.dof}});
    if (!f_.is_conventional) figures.of_concentration = figures.of_measured;
  }

  const ResultIndex& index_;
  const AssessmentBasis& basis_;
  const SampleAssessment& f_;
  const Budget& budget_;
};

}  // namespace

FigureUncertainty uncertainty_of_mean(const BatchBlanks& blanks) {
  const auto n = static_cast<double>(blanks.amounts.n);
  return combined({{blanks.amounts.s / std::sqrt(n), 1, n - 1}, of_unseen(blanks)});
}

bool is_above_limit(const LaboratoryResult& result) {
  if (is_missing(result.found) || is_missing(result.limit)) return false;
  return side_of_limit(result.found, result.limit) == Side::above;
}

ResultIndex::ResultIndex(const Book& book) : book_(book) {
  for (std::uint32_t number = 0; number < book.results.size(); ++number) {
    const LaboratoryResult& result = book.results[number];
    of_samples_.emplace_back(result.sample, number);
    if (batch_text(book, result.sample) == 0) continue;
    BatchBlanks& blanks = blanks_[batch_of(result)];
    if (is_blank(book, result)) {
      count_blank(blanks, result, number);
    } else {
      ++blanks.samples;
    }
  }
  for (auto& [batch, blanks] : blanks_) blanks.amounts = amounts_of(book, blanks);
  for (std::uint32_t number = 0; number < book.controls.size(); ++number) {
    const ControlFilter& control = book.controls[number];
    count_control(controls_[{control.batch, bare_name(control.analyte), false}], control, number);
  }
  for (auto& [batch, controls] : controls_) controls.changes = changes_of(book, controls);
  std::sort(of_samples_.begin(), of_samples_.end());
}

ResultIndex::Batch ResultIndex::batch_of(const LaboratoryResult& result) const {
  return {batch_text(book_, result.sample), bare_name(result.analyte), result.is_of_fibres};
}

std::vector<std::uint32_t> ResultIndex::of(Row sample) const {
  std::vector<std::uint32_t> numbers;
  const auto first = std::lower_bound(of_samples_.begin(), of_samples_.end(), std::pair(sample, std::uint32_t{0}));
  for (auto at = first; at != of_samples_.end() && at->first == sample; ++at) numbers.push_back(at->second);
  return numbers;
}

const BatchBlanks& ResultIndex::blanks_of(const LaboratoryResult& result) const {
  static const BatchBlanks none;
  const auto found = blanks_.find(batch_of(result));
  return found == blanks_.end() ? none : found->second;
}

const BatchControls& ResultIndex::controls_of(const LaboratoryResult& result) const {
  static const BatchControls none;
  const auto found = result.is_weighed() ? controls_.find(batch_of(result)) : controls_.end();
  return found == controls_.end() ? none : found->second;
}

ProblemNumber ResultIndex::problem_of(Row sample) const {
  if (book_.lost_results != no_problem) return book_.lost_results;
  for (const std::uint32_t number : of(sample)) {
    const LaboratoryResult& result = book_.results[number];
    if (result.problem != no_problem) return result.problem;
    if (const ProblemNumber of_blank = blanks_of(result).problem; of_blank != no_problem) return of_blank;
    if (const ProblemNumber of_control = controls_of(result).problem; of_control != no_problem) return of_control;
  }
  return no_problem;
}

std::vector<ResultFigures> laboratory_figures(const ResultIndex& index, const AssessmentBasis& basis,
                                              const SampleAssessment& figures, const Budget& budget) {
  std::vector<ResultFigures> all;
  const LaboratoryFigures working(index, basis, figures, budget);
  for (const std::uint32_t number : index.of(figures.sample)) all.push_back(working.of(number));
  return all;
}

}  // namespace driftwarden
