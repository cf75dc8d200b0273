// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <set>
#include <vector>

#include "workshop/book_with_rows.hpp"

namespace driftwarden {

// What of the rows that came stands in the book already: a form is saved more than once, and gives all that is finished
// each time.
struct RowsStanding {
  std::vector<std::set<std::size_t>> unchanged;  // of each file that came the rows, by number from 0
  // receive/differs: those that stand there with another content; receive/struck-out: remarks on those that were struck
  // out there, and are passed over, too.
  Diagnostics differing;

  std::size_t count() const;
};
RowsStanding rows_standing(const BookWithRows& with);

}  // namespace driftwarden
