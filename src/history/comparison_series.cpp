// SPDX-License-Identifier: MIT
#include "history/comparison_series.hpp"

#include <algorithm>
#include <map>

#include "quantity/elementary.hpp"

namespace driftwarden {
namespace {

bool is_usable(const PumpCheck& check) { return check.flow_l_min > 0 && !check.is_void && check.calibrator != no_row; }

// The check before one sample and the one after another, even within the hour, are of a pump that was set in between.
bool are_of_one_setting(const PumpCheck& a, const PumpCheck& b) {
  return a.pump == b.pump && a.sample == b.sample && a.stage == b.stage;
}

// Relative expanded uncertainty of a quotient of two flows.
double joint_uncertainty(const PumpCheck& a, const PumpCheck& b) {
  return elementary::hypot(a.expanded_uncertainty_l_min / a.flow_l_min, b.expanded_uncertainty_l_min / b.flow_l_min);
}

}  // namespace

std::vector<Comparison> comparisons_from(const UseLog& log) {
  std::vector<Comparison> found;
  for (std::size_t i = 1; i < log.checks.size(); ++i) {
    const PumpCheck& later = log.checks[i];
    const PumpCheck& earlier = log.checks[i - 1];
    if (!are_of_one_setting(earlier, later) || !is_usable(earlier) || !is_usable(later) ||
        later.calibrator == earlier.calibrator)
      continue;
    if (later.first - earlier.last > longest_gap_of_a_comparison_s) continue;
    found.push_back({later.sample, earlier.calibrator, later.calibrator, later.first, &earlier, &later});
  }
  return found;
}

std::vector<Series> comparison_series(const Screening& screening, const std::vector<Comparison>& comparisons,
                                      Row calibrator, const std::vector<PhaseStart>& starts) {
  std::map<Row, Series> by_other;
  for (const Comparison& comparison : comparisons) {
    if (comparison.earlier != calibrator && comparison.later != calibrator) continue;
    const bool is_later = comparison.later == calibrator;
    const PumpCheck& own = is_later ? *comparison.later_check : *comparison.earlier_check;
    const PumpCheck& other = is_later ? *comparison.earlier_check : *comparison.later_check;
    const std::string& name = screening.book().instruments[other.calibrator].name;
    Series& series =
        by_other
            .try_emplace(other.calibrator, empty_series("compared-with " + name, "Shows more than " + name, "%",
                                                        "corrected flows, at the conditions of each reading"))
            .first->second;
    series.points.push_back({comparison.at, 100 * (own.flow_l_min - other.flow_l_min) / other.flow_l_min,
                             own.n + other.n, missing,
                             100 * joint_uncertainty(own, other) * own.flow_l_min / other.flow_l_min, false,
                             name_of_sample(screening, comparison.sample), no_row, no_row, PointKind::comparison,
                             own.certificate, other.certificate});
  }
  std::vector<Series> all;
  for (auto& [other, series] : by_other) {
    std::stable_sort(series.points.begin(), series.points.end(),
                     [](const SeriesPoint& a, const SeriesPoint& b) { return a.at < b.at; });
    cut_into_phases(series, starts);
    all.push_back(std::move(series));
  }
  return all;
}

}  // namespace driftwarden
