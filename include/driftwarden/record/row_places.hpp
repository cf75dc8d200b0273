// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "driftwarden/record/instrument.hpp"

namespace driftwarden {

// Where the rows of a table were written. Rows nearly always stand on consecutive lines of a file, so only the starts of
// such stretches are kept.
class RowPlaces {
 public:
  // From this row on, rows stand on consecutive lines from this place. Rows come in order.
  void start(Row first_row, RowPlace at) { stretches_.push_back({first_row, at}); }

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
  std::vector<Stretch> stretches_;
};

}  // namespace driftwarden
