// SPDX-License-Identifier: MIT
#include "assessment/pump_drifts.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "system/in_parallel.hpp"

namespace driftwarden {
namespace {

std::tuple<Moment, double> order(const UseDrift& use) { return {use.closed, -use.square}; }

}  // namespace

PumpDrifts::PumpDrifts(std::vector<ToldBySets>& told, std::size_t instruments, unsigned threads) {
  ByInstrument<UseDrift> uses = by_instrument(told, &ToldBySets::uses, &UseDrift::pump, instruments);
  share_out(instruments, threads,
            [&] { return [&](std::size_t pump) { std::ranges::sort(uses.of(static_cast<Row>(pump)), {}, order); }; });
  begin_.push_back(0);
  for (Row pump = 0; pump < instruments; ++pump) {
    const UseDrift* before = nullptr;
    for (const UseDrift& use : uses.of(pump)) {
      // Of one bracket the first stays.
      if (before != nullptr && before->closed == use.closed) continue;
      closed_.push_back(use.closed);
      squares_.push_back(use.square + (before == nullptr ? 0 : squares_.back()));
      before = &use;
    }
    begin_.push_back(static_cast<std::uint32_t>(closed_.size()));
  }
}

DriftSpread PumpDrifts::before(Row pump, Moment moment) const {
  if (pump == no_row) return {};
  const auto first = closed_.begin() + begin_[pump];
  const auto end = std::lower_bound(first, closed_.begin() + begin_[pump + 1], moment);
  if (end == first) return {};
  const auto uses = static_cast<std::uint32_t>(end - first);
  return {uses, std::sqrt(squares_[static_cast<std::size_t>(end - closed_.begin()) - 1] / uses)};
}

}  // namespace driftwarden
