// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "book/settings.hpp"
#include "statistics/control_limits.hpp"
#include "statistics/run_rules.hpp"

namespace driftwarden {

// Fewer points of a phase than this tell nothing of what is usual: no limits come from them, and no question is asked.
inline constexpr std::size_t fewest_usual_points = 8;

// How charts are drawn: what [history] of book.toml says, and what holds where it doesn't.
struct ChartChoices {
  std::size_t baseline = settled_baseline;   // limits come from the first so many points of a phase; all, if fewer
  std::size_t fewest = fewest_usual_points;  // no limits come from fewer
  Day baseline_from = no_day;                // or those of chosen days, where a phase has points then
  Day baseline_to = no_day;
  std::optional<double> target;  // of EWMA and CUSUM of the pre flow, L/min; else the baseline's mean
  double ewma_lambda = 0.2;
  double ewma_width = 2.962;  // with λ 0.2: a false signal about every 500 points
  double cusum_k = 0.5;
  double cusum_h = 5;  // with k 0.5: a false signal about every 465 points
  std::vector<RunRule> rules{{RunPattern::beyond_limit, 1}, {RunPattern::one_side, 8}};
};

// Faults: history/unknown-run-rule.
Result<ChartChoices> chart_choices(const Settings::History& said);

}  // namespace driftwarden
