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
  uses_.reserve(uses.all.size());
  begin_.push_back(0);
  for (Row pump = 0; pump < instruments; ++pump) {
    for (const UseDrift& use : uses.of(pump)) {
      const bool is_first = uses_.size() == begin_.back();
      if (!is_first && uses_.back().closed == use.closed) continue;  // of one bracket the first stays
      uses_.push_back({use.closed, use.square + (is_first ? 0 : uses_.back().squares)});
    }
    begin_.push_back(static_cast<std::uint32_t>(uses_.size()));
  }
}

DriftSpread PumpDrifts::before(Row pump, Moment moment) const {
  if (pump == no_row) return {};
  const auto uses = std::span(uses_).subspan(begin_[pump], begin_[pump + 1] - begin_[pump]);
  const auto count = static_cast<std::uint32_t>(first_from(uses, moment) - uses.data());
  return count == 0 ? DriftSpread{} : DriftSpread{count, std::sqrt(uses[count - 1].squares / count)};
}

// Looked for where it would lie if the uses were spread evenly over time, and in doubling steps from there: the uses of
// all pumps together are more than stays in the processor's cache.
const PumpDrifts::Use* PumpDrifts::first_from(std::span<const Use> uses, Moment moment) {
  const auto is_before = [moment](const Use& use) { return use.closed < moment; };
  if (uses.empty() || !is_before(uses.front())) return uses.data();
  if (is_before(uses.back())) return uses.data() + uses.size();
  const auto share =
      static_cast<double>(moment - uses.front().closed) / static_cast<double>(uses.back().closed - uses.front().closed);
  std::size_t low = static_cast<std::size_t>(share * static_cast<double>(uses.size() - 1));
  std::size_t high = low;
  for (std::size_t step = 4; !is_before(uses[low]); step *= 2) low -= std::min(step, low);
  for (std::size_t step = 4; is_before(uses[high]); step *= 2) high = std::min(high + step, uses.size() - 1);
  return &*std::partition_point(uses.begin() + static_cast<std::ptrdiff_t>(low),
                                uses.begin() + static_cast<std::ptrdiff_t>(high), is_before);
}

}  // namespace driftwarden
