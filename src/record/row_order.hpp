// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cstddef>

#include "record/column.hpp"
#include "record/instrument.hpp"
#include "system/in_parallel.hpp"

namespace driftwarden {

// Another order of a table's rows: for each place the row that is to stand there.
struct RowOrder {
  Column<Row> rows;
  std::size_t threads = 1;  // that bring columns into it

  std::size_t size() const { return rows.size(); }
  // A column in this order.
  template <class T>
  Column<T> of(const Column<T>& column) const {
    constexpr std::size_t a_stretch = std::size_t{1} << 16;
    Column<T> result;
    if (column.empty()) return result;
    result.reserve(size());
    share_out((size() + a_stretch - 1) / a_stretch, threads, [&] {
      return [&](std::size_t stretch) {
        const std::size_t end = std::min(size(), (stretch + 1) * a_stretch);
        for (std::size_t i = stretch * a_stretch; i < end; ++i) result[i] = column[rows[i]];
      };
    });
    result.set_size(size());
    return result;
  }
  // Where a row stands then. One thread's.
  Row place_of(Row row) const;

 private:
  mutable Column<Row> places_;  // once somebody asked
};

// Rows by what each is of, a number below `count`, or no_row, which comes last; those of one in the order in which they
// stood.
RowOrder order_by(const Column<Row>& of, std::size_t count, std::size_t threads);

}  // namespace driftwarden
