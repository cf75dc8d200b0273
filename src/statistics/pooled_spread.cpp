// SPDX-License-Identifier: MIT
#include "statistics/pooled_spread.hpp"

#include <algorithm>
#include <cmath>

#include "statistics/chi_squared.hpp"
#include "statistics/fisher_f.hpp"

namespace driftwarden {

namespace {

double variance_of(const MeanAndSpread& set) { return set.s * set.s; }

}  // namespace

PooledSpread pooled_spread(std::span<const MeanAndSpread> sets) {
  double squares = 0;
  double dof = 0;
  for (const MeanAndSpread& set : sets) {
    if (set.n < 2) continue;
    const auto set_dof = static_cast<double>(set.n - 1);
    squares += set_dof * variance_of(set);
    dof += set_dof;
  }
  return {dof > 0 ? std::sqrt(squares / dof) : no_figure, dof};
}

double cochran_critical(std::size_t sets, std::size_t values_in_each, double significance) {
  if (sets < 2 || values_in_each < 2 || !(significance > 0 && significance < 1)) return no_figure;
  const auto l = static_cast<double>(sets);
  const auto dof = static_cast<double>(values_in_each - 1);
  const double f = fisher_f_upper_quantile(significance / l, dof, dof * (l - 1));
  return 1 / (1 + (l - 1) / f);
}

std::optional<OutlierCheck> cochran(std::span<const MeanAndSpread> sets, double significance) {
  if (sets.size() < 2 || sets.front().n < 2 || !are_of_one_size(sets)) return std::nullopt;
  OutlierCheck check;
  double sum = 0;
  for (std::size_t i = 0; i < sets.size(); ++i) {
    sum += variance_of(sets[i]);
    if (sets[i].s > sets[check.index].s) check.index = i;
  }
  if (!(sum > 0)) return std::nullopt;
  check.statistic = variance_of(sets[check.index]) / sum;
  check.critical = cochran_critical(sets.size(), sets.front().n, significance);
  check.significant = check.statistic > check.critical;
  return check;
}

SpreadAgainstHistory spread_against_history(std::span<const MeanAndSpread> sets, double sigma) {
  const PooledSpread pooled = pooled_spread(sets);
  if (!(sigma > 0) || !(pooled.dof > 0)) return {};
  const double ratio = pooled.s / sigma;
  const double q = pooled.dof * ratio * ratio;
  return {q, pooled.dof, chi_squared_cdf(q, pooled.dof), chi_squared_upper_tail(q, pooled.dof)};
}

}  // namespace driftwarden
