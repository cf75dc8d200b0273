// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "book/book.hpp"
#include "history/instrument_standing.hpp"
#include "history/review_action.hpp"

namespace driftwarden {

// What of a kit went out on one day and has not come back, or is being put together.
struct KitOut {
  std::vector<const Issue*> things;  // one at least
  std::string kind;                  // as the first of its rows that says one; else it is called like its kind
  std::string to;                    // as the first that says it
  Day due_back = no_day;             // the earliest of its rows

  explicit KitOut(const Issue& first) { add(first); }
  void add(const Issue& thing);
  const std::string& kit() const { return things.front()->kit; }
  Day out() const { return things.front()->out; }
  bool is_out() const { return out() != no_day; }
  // Days since it was due back; 0 where it isn't, or nobody says when it is.
  Day overdue_d(Day as_of) const;
};

// An instrument that must not go out as it is.
struct UnfitInstrument {
  Row instrument = no_row;
  std::vector<std::string> why;  // "past due: it was due on 2026-10-13, 34 days ago"
  std::string where;             // "out with north crew (kit K-1)"; "" where nobody knows
};

// How the kits stand on a day. Points into the book.
struct KitsOut {
  std::vector<KitOut> being_packed;
  std::vector<KitOut> out;
  std::vector<const Issue*> missing;  // known to be, and neither found nor issued again since
  std::vector<UnfitInstrument> unfit;
  // What nobody can say of the kits, for issues.csv is not there or was not understood; "": all is known.
  std::string not_known;

  std::string why_unfit(Row instrument) const;  // "" where it is fit to go
};

// Whether the book says what belongs to kits, or where they are; also where that can't be used.
bool keeps_kits(const Book& book);

// An instrument's name, or what the thing is.
std::string thing_of(const Book& book, const Issue& issue);

// All but what is unfit.
KitsOut kits_out(const Book& book, Day as_of);

// What has to be done about kits: those that are overdue, and what is missing.
std::vector<ReviewAction> actions_about_kits(const Book& book, const KitsOut& kits, Day as_of);

// Needs no issues.csv: the instruments in service that are past due, on Watch, found wrong or to be compared, as the
// actions say; that are packed or out without being charged, or will be due before they are back; that came back
// damaged, and nobody has written a service since; and those out of service that are packed or out all the same.
std::vector<UnfitInstrument> unfit_to_go(const Screening& screening, const std::vector<ReviewAction>& actions,
                                         const std::vector<InstrumentStanding>& standings, Day as_of);

}  // namespace driftwarden
