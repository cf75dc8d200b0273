// SPDX-License-Identifier: MIT
#include "report/budget_working.hpp"

#include <cmath>

#include "diagnostic/joined.hpp"
#include "quantity/rounding.hpp"
#include "report/paint.hpp"
#include "report/terminal_text.hpp"
#include "statistics/welch_satterthwaite.hpp"

namespace driftwarden {
namespace {

std::string dof_text(double dof) { return std::isinf(dof) ? "inf" : dof > 9999 ? "> 9999" : with_decimals(dof, 0); }

// The source, and behind it or, on a terminal that is too narrow, below it what is said of it.
std::string source_cell(std::string_view source, std::size_t columns) {
  return "  " + (columns < widest_table ? std::string(source) + "\n      " : left(source, 41));
}

std::string input_line(const BudgetLine& line, const FigureUncertainty& volume, std::size_t columns) {
  const double contribution = line.contribution(BudgetFigure::volume);
  const double share = 100 * contribution * contribution / (volume.u * volume.u);
  return source_cell(to_text(line.source), columns) + right(with_significant_digits(line.estimate, 6), 9) + " " +
         right(with_significant_digits(line.u, 3), 9) + " " + left(unit_of(line.source), 6) +
         left(to_text(line.distribution), 12) + right(dof_text(line.dof), 4) +
         right(with_significant_digits(line.sensitivity[2], 4), 9) +
         right(with_significant_digits(contribution, 3), 8) +
         right(is_missing(share) ? "" : with_decimals(share, 1), 7) + "\n";
}

std::string figure_line(const Budget& budget, BudgetFigure figure, std::string_view name, double scale,
                        std::string_view unit) {
  const FigureUncertainty& of = budget.about(figure);
  if (is_missing(of.expanded)) return "  " + left(name, 12) + "not stated: an input that it leans on is missing\n";
  return "  " + left(name, 12) + "u = " + with_significant_digits(scale * of.u, 3) + " " + std::string(unit) +
         ", effective degrees of freedom " + dof_text(whole_degrees_of_freedom(of.dof)) +
         ", k = " + with_decimals(of.coverage_factor, 2) + ", U = " + with_significant_digits(scale * of.expanded, 2) +
         " " + std::string(unit) + " (95 %)\n";
}

// What is missing, and where the book tells it how much that may be.
std::string lack_text(const BudgetLack& lack) {
  std::string text(to_text(lack.source));
  if (is_missing(lack.within)) return text;
  const bool is_ratio = unit_of(lack.source) == "1";
  return text + " (within " + with_significant_digits(is_ratio ? 100 * lack.within : lack.within, 2) + " " +
         (is_ratio ? "%" : std::string(unit_of(lack.source))) + " by the tolerance)";
}

// "PUMP-07's drift over 12 earlier uses, s = 0.52 %"
std::string uses_text(const DriftSpread& earlier) {
  if (earlier.uses == 0) return "no earlier use of the pump tells more";
  return "over " + counted(earlier.uses, "earlier use", "earlier uses") +
         " the pump's drift had a standard deviation of " + with_significant_digits(100 * earlier.s, 2) + " %";
}

std::string flow_between_text(const FlowBetween& between, const Settings::Uncertainty& settings) {
  const std::string uses = uses_text(between.earlier);
  switch (between.from) {
    case FlowBetween::From::distance:
      return "half of the difference between them; " + uses;
    case FlowBetween::From::earlier_uses:
      return uses + ", and half of that is more than half of the difference between them";
    case FlowBetween::From::stated:
      break;
  }
  return uses + ", so " + with_significant_digits(100 * settings.flow_between, 2) + " % of the flow, by " +
         (settings.flow_between_was_said ? "flow_between in [uncertainty] of the book"
                                         : "this program's own choice (flow_between in [uncertainty] says another)");
}

}  // namespace

std::string budget_working(const SampleResult& result, const Settings::Uncertainty& settings, std::size_t columns) {
  const Budget& budget = result.budget;
  if (budget.lines.empty()) return {};
  const FigureUncertainty& volume = budget.about(BudgetFigure::volume);
  std::string out =
      "\nUncertainty (GUM, first order; contributions and shares are to the actual volume, in L and % of its "
      "variance)\n";
  out += source_cell("source", columns) + right("estimate", 9) + right("u", 10) + " " + left("unit", 6) +
         left("distribution", 12) + right("dof", 4) + right("c", 9) + right("c u", 8) + right("share", 7) + "\n";
  for (const BudgetLine& line : budget.lines) out += input_line(line, volume, columns);
  out += figure_line(budget, BudgetFigure::drift, "drift", 100, "%");
  out += figure_line(budget, BudgetFigure::flow, "flow", 1, "L/min");
  out += figure_line(budget, BudgetFigure::volume, "volume", 1, "L");
  out += figure_line(budget, BudgetFigure::volume_reference, "ref. volume", 1, "L");
  out +=
      wrapped("Flow between the checks: " + flow_between_text(budget.flow_between, settings) + ".", 2, working_width);
  const std::string lacks = joined(budget.lacks, "; ", [](const BudgetLack& lack) { return lack_text(lack); });
  if (!lacks.empty()) out += wrapped("Missing, so not counted: " + lacks, 2, working_width);
  return out;
}

}  // namespace driftwarden
