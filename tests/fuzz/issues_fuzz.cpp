// SPDX-License-Identifier: MIT
// Any bytes as issues.csv: what went out in kits, and came back. Nothing may crash, and what is kept of a row can be
// used.
#include <cstdint>

#include "book/whereabouts.hpp"
#include "fuzz/sound_book.hpp"
#include "history/kits_out.hpp"

namespace driftwarden {
namespace {

void rows_can_be_used(const Book& book) {
  for (const Issue& issue : book.issues) {
    require(!issue.kit.empty(), "a row says in which kit");
    require(issue.instrument < book.instruments.size() || !issue.item.empty(), "and what");
    require(issue.back == no_day || (issue.out != no_day && issue.out <= issue.back),
            "it comes back after it went out");
    require(issue.place.file < book.files.issues.size() && issue.place.line > 1, "a row has a place");
  }
}

void each_row_stands_one_way(const Book& book, std::optional<Day> as_of) {
  const Whereabouts where(book, as_of);
  for (const Issue& issue : book.issues) {
    require(where.is_packed(issue) + where.is_out(issue) + where.is_missing(issue) <= 1, "a row stands one way");
    if (issue.instrument == no_row || issue.out == no_day) continue;
    for (const Day day : {issue.out, issue.out + 1, issue.back == no_day ? issue.out : issue.back}) {
      for (const Whereabouts::Stay& stay : where.on(issue.instrument, day))
        require(stay.issue != nullptr && stay.issue->out <= day, "where it was says a row of that day or before");
      where.had_by(issue.instrument, day);
    }
  }
}

void kits_hold_what_is_in_them(const Book& book, Day as_of) {
  const KitsOut kits = kits_out(book, as_of);
  std::size_t rows = kits.missing.size();
  for (const std::vector<KitOut>* all : {&kits.being_packed, &kits.out}) {
    for (const KitOut& kit : *all) {
      require(!kit.things.empty() && !kit.kind.empty() && kit.overdue_d(as_of) >= 0, "a kit holds something");
      rows += kit.things.size();
    }
  }
  require(rows <= book.issues.size(), "a row is in one kit at most");
}

void issues_can_be_used(const Book& book) {
  rows_can_be_used(book);
  each_row_stands_one_way(book, {});
  for (const Day as_of : {Day{20500}, Day{20580}, Day{20700}}) {
    each_row_stands_one_way(book, as_of);
    kits_hold_what_is_in_them(book, as_of);
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  return driftwarden::read_as("issues.csv", data, size, driftwarden::issues_can_be_used);
}
