// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>

#include "book/book.hpp"

namespace driftwarden {

// What actions.csv says of an action: what the newest row says that says anything of it.
struct Assigned {
  std::string who;
  Day due = no_day;
  Day done = no_day;  // on which somebody wrote down that it is done; no_day: nobody did, or somebody took it back
  std::string note;
  const Assignment* last = nullptr;  // nullptr: no row is about it

  bool is_done() const { return done != no_day; }
  bool is_open() const { return last != nullptr && !is_done(); }
};

// Of all actions that rows written on or before a day are about. Points into the book.
std::map<ActionKey, Assigned> assigned_by(const Book& book, Day as_of);

}  // namespace driftwarden
