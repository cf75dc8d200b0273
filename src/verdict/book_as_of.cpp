// SPDX-License-Identifier: MIT
#include "verdict/book_as_of.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "book/stamp_text.hpp"
#include "diagnostic/letters.hpp"
#include "verdict/rulings.hpp"
#include "verdict/unknown_words.hpp"
#include "verdict/unmet_names.hpp"

namespace driftwarden {
namespace {

std::string not_counted(Day as_of) {
  return " after " + date_text(as_of) + ", which stands for today; it is not counted";
}

Diagnostic later(const Book& book, const Decision& decision, Day as_of) {
  return remark("decision/later", {book.files.decisions[decision.place.file], decision.place.line, 0},
                "the decision about " + in_quotes(decision.subject) + " was taken" + not_counted(as_of));
}

Diagnostic later(const Book& book, const Assignment& row, Day as_of) {
  return remark("actions/later", {book.files.actions[row.place.file], row.place.line, 0},
                "what it says of " + in_quotes(row.action.name) + " was written" + not_counted(as_of));
}

// What was written down after the day that stands for today is not known yet on that day.
template <class Written>
Diagnostics leave_out_later(const Book& book, std::vector<Written>& rows, Moment Written::*when, Day as_of) {
  Diagnostics remarks;
  std::erase_if(rows, [&](const Written& row) {
    const bool is_later = local_day(row.*when, book.settings.zone) > as_of;
    if (is_later) remarks.push_back(later(book, row, as_of));
    return is_later;
  });
  return remarks;
}

// The same of what the laboratory reported later, told once: a whole batch comes in one report.
Diagnostics leave_out_later_results(Book& book, Day as_of) {
  std::erase_if(book.controls, [=](const ControlFilter& of) { return of.reported > as_of; });
  const auto first =
      std::ranges::find_if(book.results, [=](const LaboratoryResult& of) { return of.reported > as_of; });
  if (first == book.results.end()) return {};
  const Place place{book.files.results[first->place.file], first->place.line, 0};
  const std::size_t left_out =
      std::erase_if(book.results, [=](const LaboratoryResult& of) { return of.reported > as_of; });
  return {remark("results/later", place,
                 left_out == 1 ? "a result was reported" + not_counted(as_of)
                               : std::to_string(left_out) + " results were reported after " + date_text(as_of) +
                                     ", which stands for today; they are not counted")};
}

// Which of two rows about one thing is meant nobody can say, once both were reported.
template <class Reported, class Thing>
void distrust_what_stands_twice(std::vector<Reported>& rows, Thing thing) {
  std::map<decltype(thing(rows.front())), std::vector<Reported*>> of_one_thing;
  for (Reported& row : rows) {
    if (row.twice != no_problem) of_one_thing[thing(row)].push_back(&row);
  }
  for (const auto& [one, reported] : of_one_thing) {
    if (reported.size() < 2) continue;
    for (Reported* row : reported) {
      if (row->problem == no_problem) row->problem = row->twice;
    }
  }
}

void distrust_what_stands_twice(Book& book) {
  distrust_what_stands_twice(book.results,
                             [](const LaboratoryResult& of) { return std::pair(of.sample, bare_name(of.analyte)); });
  distrust_what_stands_twice(book.controls,
                             [](const ControlFilter& of) { return std::pair(of.name, bare_name(of.analyte)); });
}

}  // namespace

bool OpenedBook::has_faults() const { return std::any_of(book.problems.begin(), book.problems.end(), is_error); }

void add_problems(Book& book, const Diagnostics& found) {
  book.problems.insert(book.problems.end(), found.begin(), found.end());
}

std::unique_ptr<OpenedBook> put_together(Book book, RuleSet rules, Day as_of, unsigned threads, Diagnostics& found) {
  auto opened = std::make_unique<OpenedBook>(OpenedBook{std::move(book), std::move(rules), nullptr, as_of});
  const auto keep = [&](const Diagnostics& more) {
    add_problems(opened->book, more);
    found.insert(found.end(), more.begin(), more.end());
  };
  keep(leave_out_later(opened->book, opened->book.decisions, &Decision::decided, as_of));
  keep(leave_out_later(opened->book, opened->book.assignments, &Assignment::written, as_of));
  keep(leave_out_later_results(opened->book, as_of));
  distrust_what_stands_twice(opened->book);
  keep(decisions_on_unknown_rules(opened->book, opened->rules));
  keep(unknown_words(opened->book, UnknownWords(opened->book, opened->rules)));
  keep(unmet_names(opened->book, opened->rules));
  opened->screening = std::make_unique<Screening>(opened->book, opened->rules, SupposedErrors{}, threads);
  return opened;
}

}  // namespace driftwarden
