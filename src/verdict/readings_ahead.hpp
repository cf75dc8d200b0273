// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <vector>

#include "verdict/rules_ahead.hpp"

namespace driftwarden {

// How many readings are usually taken for a set, by what the book's sets before and after samples had up to a day.
class ReadingHabit {
 public:
  ReadingHabit(const Book& book, Day as_of);

  // As most of the newest sets with a calibrator had, the larger number of two as frequent; of all calibrators, where
  // none is named or none was read with it. 0: the book has no sets.
  int of(Row calibrator) const;

 private:
  std::map<Row, int> of_;
  int of_all_ = 0;
};

// How many readings a set before or after a sample needs room for: as many as rules ask for, as many as are usual where
// that is more, and three where nobody says. A reading that is struck out and taken again is not among them.
std::size_t readings_ahead(int asked, int usual);

}  // namespace driftwarden
