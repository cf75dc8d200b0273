// SPDX-License-Identifier: MIT
#include "record/row_order.hpp"

#include <vector>

namespace driftwarden {

Row RowOrder::place_of(Row row) const {
  if (places_.empty()) {
    places_.reserve(size());
    places_.set_size(size());
    for (Row place = 0; place < size(); ++place) places_[rows[place]] = place;
  }
  return places_[row];
}

// Each thread has a share of the things, looks through all rows for those that are of one of them, first to count them,
// then to put them where they belong.
RowOrder order_by(const Column<Row>& of, std::size_t count, std::size_t threads) {
  RowOrder order;
  order.threads = std::max<std::size_t>(threads, 1);
  order.rows.reserve(of.size());
  order.rows.set_size(of.size());
  std::vector<std::uint32_t> ends(count + 2, 0);  // behind the rows of each; of nothing last
  const auto slot_of = [count](Row thing) { return std::min<std::size_t>(thing, count) + 1; };
  const auto for_each_of_share = [&](std::size_t share, auto look) {
    const std::size_t first = (count + 1) * share / order.threads;
    const std::size_t things = (count + 1) * (share + 1) / order.threads - first;
    for (Row row = 0; row < of.size(); ++row) {
      const std::size_t slot = slot_of(of[row]);
      if (slot - 1 - first < things) look(slot, row);
    }
  };
  const auto share_out_things = [&](auto look) {
    share_out(order.threads, order.threads, [&] { return [&](std::size_t share) { for_each_of_share(share, look); }; });
  };
  share_out_things([&](std::size_t slot, Row) { ++ends[slot]; });
  for (std::size_t slot = 1; slot < ends.size(); ++slot) ends[slot] += ends[slot - 1];
  // The end of the thing before is where the next row of this one belongs.
  share_out_things([&](std::size_t slot, Row row) { order.rows[ends[slot - 1]++] = row; });
  return order;
}

}  // namespace driftwarden
