// SPDX-License-Identifier: MIT
#include "assessment/more_readings.hpp"

#include <cmath>

namespace driftwarden {
namespace {

struct ScatterOfASet {
  const ReadingSet* set = nullptr;  // whose it is; nullptr: another input
  bool is_pooled = false;
};

ScatterOfASet scatter_of(BudgetSource source, const SampleAssessment& figures) {
  switch (source) {
    case BudgetSource::pre_repeatability:
      return {figures.pre_set(), false};
    case BudgetSource::post_repeatability:
      return {figures.post_set(), false};
    case BudgetSource::pre_pooled_repeatability:
      return {figures.pre_set(), true};
    case BudgetSource::post_pooled_repeatability:
      return {figures.post_set(), true};
    default:
      return {};
  }
}

}  // namespace

Budget with_more_readings(const Budget& budget, const SampleAssessment& figures, std::size_t more) {
  Budget with = budget;
  for (BudgetLine& line : with.lines) {
    const ScatterOfASet of = scatter_of(line.source, figures);
    if (of.set == nullptr || of.set->flow.n == 0) continue;
    const auto n = static_cast<double>(of.set->flow.n);
    const auto added = static_cast<double>(more);
    line.u *= std::sqrt(n / (n + added));
    if (!of.is_pooled) line.dof += added;
  }
  combine_lines(with);
  return with;
}

}  // namespace driftwarden
