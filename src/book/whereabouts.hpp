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

  // Where an instrument may have been on a day: one place, or two on a day it went out or came back, or where it is
  // missing and nobody says since when. Empty where nobody knows: before its first issue, or where nothing was ever
  // issued.
  std::vector<Stay> on(Row instrument, Day day) const;

  // Who had it on a day, "north crew (kit K-1)": on a day it moved they may be two. Nobody where it was not out, or
  // where nobody knows.
  std::vector<std::string> had_by(Row instrument, Day day) const;

  // Its issues, those that went out first before the others, those not yet out last.
  const std::vector<const Issue*>& issues_of(Row instrument) const { return of_[instrument]; }

  // How a row stands. None of the three: it is back, has turned up, or is yet to go out.
  bool is_packed(const Issue& issue) const { return issue.out == no_day && issue.missing != YesNo::yes; }
  bool is_out(const Issue& issue) const {
    return has_come(issue.out) && back_of(issue) == no_day && !was_missed(issue);
  }
  bool is_missing(const Issue& issue) const { return was_missed(issue) && next_of(issue) == nullptr; }

  // The day it came back, or its kit without it; no_day: not yet.
  Day back_of(const Issue& issue) const { return has_come(issue.back) ? issue.back : no_day; }
  // By which an instrument came back damaged, if no service of it was written since; nullptr: by none.
  const Issue* damaged(Row instrument) const;
  // The last day it may have been with whoever had it: what is missing, and nobody says since when, until it went out
  // again. no_day: it may be there yet.
  Day end_of(const Issue& issue) const;

 private:
  bool has_come(Day day) const { return day != no_day && (!as_of_ || day <= *as_of_); }
  // Whether what was found as it came back is known by now. Where no such day is written, from the day it went out.
  bool was_looked_at(const Issue& issue) const;
  bool was_missed(const Issue& issue) const { return issue.missing == YesNo::yes && was_looked_at(issue); }
  // With which it went out again since it was missed: it had turned up.
  const Issue* next_of(const Issue& missed) const;

  const Book& book_;
  std::optional<Day> as_of_;
  std::vector<std::vector<const Issue*>> of_;  // by instrument
};

// "north crew (kit K-1)", "kit K-1" where nobody is named.
std::string holder_of(const Issue& issue);

}  // namespace driftwarden
