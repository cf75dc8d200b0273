// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

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

  RowPlace operator[](Row row) const {
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
};

}  // namespace driftwarden
