// SPDX-License-Identifier: MIT
#include "doubt/pair_scatter.hpp"

#include <algorithm>
#include <cmath>

#include "statistics/identical_replicates.hpp"

namespace driftwarden {
namespace {

MeanAndSpread relative(const Replicates& set) {
  MeanAndSpread spread = mean_and_spread(set.indicated_l_min);
  spread.s /= spread.mean;
  return spread;
}

PooledSpread without(const PooledSpread& pooled, const MeanAndSpread& own) {
  const double own_dof = static_cast<double>(own.n) - 1;
  const double dof = pooled.dof - own_dof;
  if (!(dof > 0)) return {};
  return {std::sqrt(std::max(0.0, pooled.s * pooled.s * pooled.dof - own.s * own.s * own_dof) / dof), dof};
}

}  // namespace

PairScatter::PairScatter(const std::vector<Replicates>& all) : all_(all), is_left_out_(all.size(), false) {
  own_.reserve(all.size());
  for (const Replicates& set : all) {
    own_.push_back(relative(set));
    const double step = smallest_step(set.indicated_l_min);
    if (!(step > 0)) continue;
    double& seen = step_seen_[{set.calibrator, set.pump}];
    if (seen == 0 || step < seen) seen = step;
  }
  pool();
}

void PairScatter::leave_out(std::vector<bool> sets) {
  is_left_out_ = std::move(sets);
  pool();
}

void PairScatter::pool() {
  std::map<Pair, std::vector<MeanAndSpread>> sets;
  for (std::size_t i = 0; i < all_.size(); ++i) {
    if (is_left_out_[i] || !std::isfinite(own_[i].s)) continue;
    const Row pump = all_[i].pump;
    if (pump != no_row) sets[{all_[i].calibrator, pump}].push_back(own_[i]);
    sets[{all_[i].calibrator, no_row}].push_back(own_[i]);
  }
  pooled_.clear();
  for (const auto& [pair, of] : sets) pooled_[pair] = pooled_spread(of);
}

PooledSpread PairScatter::others(std::size_t set, Row pump) const {
  const auto found = pooled_.find({all_[set].calibrator, pump});
  if (found == pooled_.end()) return {};
  const bool is_in_it = !is_left_out_[set] && std::isfinite(own_[set].s);
  return is_in_it ? without(found->second, own_[set]) : found->second;
}

PooledSpread PairScatter::in_steps(std::size_t set, double step_of_calibrator) const {
  const PooledSpread known = of_pair(set);
  const auto seen = step_seen_.find({all_[set].calibrator, all_[set].pump});
  if (!(known.dof > 0) || !(step_of_calibrator > 0) || seen == step_seen_.end()) return {};
  const double s = known.s * own_[set].mean / std::max(step_of_calibrator, seen->second);
  constexpr double of_rounding = 1.0 / 12;  // the variance of what is lost, in steps (Sheppard)
  const double variance = s * s - of_rounding;
  constexpr double least = coarse_display_sigma_in_steps * coarse_display_sigma_in_steps;
  if (!(variance >= least)) return {};
  return {std::sqrt(variance), known.dof};
}

}  // namespace driftwarden
