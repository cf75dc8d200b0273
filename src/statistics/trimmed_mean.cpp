// SPDX-License-Identifier: MIT
#include "statistics/trimmed_mean.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "statistics/mean_and_spread.hpp"
#include "statistics/student_t.hpp"
#include "statistics/welch_satterthwaite.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t of_so_many_one_is_cut = 5;  // at either end
constexpr double dof_where_cut = 0.8;             // of h - 1

}  // namespace

TrimmedMean trimmed_mean(std::span<const double> values) {
  if (values.size() < 2) return {};
  std::vector<double> sorted(values.begin(), values.end());
  std::sort(sorted.begin(), sorted.end());
  const std::size_t n = sorted.size();
  const std::size_t cut = n / of_so_many_one_is_cut;
  TrimmedMean trimmed;
  trimmed.mean = mean_and_spread(std::span(sorted).subspan(cut, n - 2 * cut)).mean;
  std::fill_n(sorted.begin(), cut, sorted[cut]);
  std::fill_n(sorted.rbegin(), cut, sorted[n - 1 - cut]);
  const double s = mean_and_spread(sorted).s;
  const auto h = static_cast<double>(n - 2 * cut);
  trimmed.u = s * std::sqrt(static_cast<double>(n - 1) / (h * (h - 1)));
  trimmed.dof = (cut == 0 ? 1 : dof_where_cut) * (h - 1);
  return trimmed;
}

TrimmedMean difference_of(const TrimmedMean& one, const TrimmedMean& other) {
  const std::array<UncertaintyContribution, 2> parts{{{one.u, 1, one.dof}, {other.u, -1, other.dof}}};
  return {one.mean - other.mean, std::sqrt(one.u * one.u + other.u * other.u), effective_degrees_of_freedom(parts)};
}

double p_beyond(const TrimmedMean& mean, double allowed) {
  if (!(mean.u > 0)) return no_figure;
  const double t = (std::fabs(mean.mean) - allowed) / mean.u;
  return t <= 0 ? 1 : student_t_two_sided_p(t, mean.dof);
}

}  // namespace driftwarden
