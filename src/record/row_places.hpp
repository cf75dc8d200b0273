// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cstdint>
#include <utility>
#include <vector>

#include "record/column.hpp"
#include "record/instrument.hpp"

namespace driftwarden {

// Where the rows of a table were written. Rows nearly always stand on consecutive lines of a file, so only the starts
// of such stretches are kept.
class RowPlaces {
 public:
  // From this row on, rows stand on consecutive lines from this place. Rows come in order.
  void start(Row first_row, RowPlace at) {
    if (!goes_on(first_row, at)) stretches_.push_back({first_row, at});
  }

  // The rows now stand in another order: at each place the row that was written as so many.
  void reorder(Column<Row> as_written) { as_written_ = std::move(as_written); }
  // As which of the rows it was written.
  Row as_written(Row row) const { return as_written_.empty() ? row : as_written_[row]; }

  RowPlace operator[](Row row_now) const {
    const Row row = as_written(row_now);
    const auto next = std::upper_bound(stretches_.begin(), stretches_.end(), row,
                                       [](Row r, const Stretch& s) { return r < s.first_row; });
    if (next == stretches_.begin()) return {};
    const Stretch& s = *(next - 1);
    return {s.at.file, s.at.line + (row - s.first_row)};
  }

 private:
  struct Stretch {
    Row first_row;
    RowPlace at;
  };

  // Whether the last stretch says just that.
  bool goes_on(Row row, RowPlace at) const {
    if (stretches_.empty()) return false;
    const Stretch& last = stretches_.back();
    return last.at.file == at.file && last.at.line + (row - last.first_row) == at.line;
  }

  std::vector<Stretch> stretches_;
  Column<Row> as_written_;  // empty where rows stand as they were written
};

}  // namespace driftwarden
