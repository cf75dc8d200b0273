// SPDX-License-Identifier: MIT
#include "assessment/pump_drifts.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "system/in_parallel.hpp"

namespace driftwarden {
namespace {

// Of one bracket the largest comes first.
std::tuple<Moment, double> order(const UseDrift& use) { return {use.closed, -use.square}; }

// Brings uses into the order of time, one of each bracket, and adds them up. Gives how many that is.
std::uint32_t add_up_in_order_of_time(std::span<UseDrift> uses) {
  std::ranges::sort(uses, {}, order);
  const auto end =
      std::unique(uses.begin(), uses.end(), [](const UseDrift& a, const UseDrift& b) { return a.closed == b.closed; });
  const auto count = static_cast<std::size_t>(end - uses.begin());
  for (std::size_t i = 1; i < count; ++i) uses[i].square += uses[i - 1].square;
  return static_cast<std::uint32_t>(count);
}

}  // namespace

PumpUses::PumpUses(const SampleTable& samples, std::size_t instruments)
    : instruments_(instruments), begins_(instruments + 1), ends_(new std::atomic<std::uint32_t>[instruments]) {
  for (const Row pump : samples.pump) {
    if (pump != no_row) ++begins_[pump + 1];
  }
  for (std::size_t pump = 0; pump < instruments; ++pump) {
    begins_[pump + 1] += begins_[pump];
    ends_[pump] = begins_[pump];
  }
  uses_.reserve(begins_.back());
  uses_.set_size(begins_.back());
}

PumpDrifts::PumpDrifts(PumpUses told, unsigned threads)
    : begins_(std::move(told.begins_)), ends_(told.instruments_), uses_(std::move(told.uses_)) {
  share_out(told.instruments_, threads, [&] {
    return [&](std::size_t pump) {
      const std::uint32_t begin = begins_[pump];
      ends_[pump] = begin + add_up_in_order_of_time({uses_.data() + begin, uses_.data() + told.ends_[pump]});
    };
  });
}

DriftSpread PumpDrifts::before(Row pump, Moment moment) const {
  if (pump == no_row) return {};
  const std::span<const UseDrift> uses(uses_.data() + begins_[pump], uses_.data() + ends_[pump]);
  const auto count = static_cast<std::uint32_t>(first_from(uses, moment) - uses.data());
  return count == 0 ? DriftSpread{} : DriftSpread{count, std::sqrt(uses[count - 1].square / count)};
}

// Looked for where it would lie if the uses were spread evenly over time, and in doubling steps from there: the uses of
// all pumps together are more than stays in the processor's cache.
const UseDrift* PumpDrifts::first_from(std::span<const UseDrift> uses, Moment moment) {
  const auto is_before = [moment](const UseDrift& use) { return use.closed < moment; };
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
