// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <utility>

#include "doubt/replicates.hpp"
#include "statistics/pooled_spread.hpp"

namespace driftwarden {

// How readings scatter within the sets of one calibrator on one pump, for pumps differ in steadiness; as a share of the
// mean, so that sets of any flow can be pooled. What is known of a set is known from the others.
class PairScatter {
 public:
  explicit PairScatter(const std::vector<Replicates>& all);

  void leave_out(std::vector<bool> sets);  // they tell nothing from now on

  const MeanAndSpread& own(std::size_t set) const { return own_[set]; }  // s relative
  PooledSpread of_pair(std::size_t set) const { return others(set, all_[set].pump); }
  PooledSpread of_calibrator(std::size_t set) const { return others(set, no_row); }
  // By the pair, in display steps at this set's flow, what rounding adds taken off. A step of the calibrator's, or,
  // where the pair's readings are never so close, of theirs: somebody may write down fewer digits. No figure where the
  // step is not known, or hides the scatter.
  PooledSpread in_steps(std::size_t set, double step_of_calibrator) const;

 private:
  using Pair = std::pair<Row, Row>;  // calibrator and pump; no_row: all pumps

  PooledSpread others(std::size_t set, Row pump) const;
  void pool();

  const std::vector<Replicates>& all_;
  std::vector<MeanAndSpread> own_;
  std::vector<bool> is_left_out_;
  std::map<Pair, PooledSpread> pooled_;
  std::map<Pair, double> step_seen_;
};

}  // namespace driftwarden
