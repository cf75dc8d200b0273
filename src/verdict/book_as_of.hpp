// SPDX-License-Identifier: MIT
#pragma once

#include <memory>

#include "verdict/rule_files.hpp"
#include "verdict/screening.hpp"

namespace driftwarden {

// A book, its rules, and both put together.
struct OpenedBook {
  Book book;
  RuleSet rules;
  std::unique_ptr<Screening> screening;
  Day as_of = no_day;

  bool has_faults() const;  // errors among the book's problems
};

// Puts a book and its rules together as on a day that stands for today: what was decided later does not count. What is
// found meanwhile is added to `found`, and to the book's problems behind those it has, for they keep their numbers.
std::unique_ptr<OpenedBook> put_together(Book book, RuleSet rules, Day as_of, unsigned threads, Diagnostics& found);

// What is found wrong with a book once it is read.
void add_problems(Book& book, const Diagnostics& found);

}  // namespace driftwarden
