// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"

namespace driftwarden {

// What issues.csv says of where the instruments were, as far as it had come by a day; without one, all of it. The book
// has to outlive it.
class Whereabouts {
 public:
  enum class Where : std::uint8_t { out, store, lost };
  struct Stay {
    Where where = Where::store;
    const Issue* issue = nullptr;  // with which it is out; of the others, by which it came back or did not
  };

  explicit Whereabouts(const Book& book, std::optional<Day> as_of = {});

  // Where an instrument may have been on a day: one place, or two on a day it went out or came back. Empty where nobody
  // knows: before its first issue, or where nothing was ever issued.
  std::vector<Stay> on(Row instrument, Day day) const;

  // Who had it on a day, "north crew (kit K-1)"; "" where it was not out, or nobody knows.
  std::string had_by(Row instrument, Day day) const;

  // Its issues, those that went out first before the others, those not yet out last.
  const std::vector<const Issue*>& issues_of(Row instrument) const { return of_[instrument]; }

  // The day it came back, or its kit without it; no_day: not yet.
  Day back_of(const Issue& issue) const { return has_come(issue.back) ? issue.back : no_day; }

 private:
  bool has_come(Day day) const { return day != no_day && (!as_of_ || day <= *as_of_); }

  std::optional<Day> as_of_;
  std::vector<std::vector<const Issue*>> of_;  // by instrument
};

// "north crew (kit K-1)", "kit K-1" where nobody is named.
std::string holder_of(const Issue& issue);

}  // namespace driftwarden
