// SPDX-License-Identifier: MIT
#pragma once

#include <map>

#include "book/book.hpp"

namespace driftwarden {

// The day each sample belongs to: that of its start in the book's zone. A blank without times belongs to the last day
// of its batch, of those that have come by `last`. The book has to outlive it.
class SampleDays {
 public:
  SampleDays(const Book& book, Day last);

  // no_day where nobody can say.
  Day day_of(Row sample) const;
  // Whether its day has come by `last`. What has no day is there: nobody can say that it lies outside.
  bool has_come(Row sample) const;

 private:
  TextId batch_of(Row sample) const;
  Day started(Row sample) const;

  const Book& book_;
  Day last_;
  std::map<TextId, Day> of_batch_;
};

}  // namespace driftwarden
