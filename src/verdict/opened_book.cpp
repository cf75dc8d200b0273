// SPDX-License-Identifier: MIT
#include "verdict/opened_book.hpp"

#include <algorithm>

#include "verdict/rulings.hpp"
#include "verdict/unknown_words.hpp"
#include "verdict/unmet_names.hpp"

namespace driftwarden {
namespace {

Diagnostic later(const Book& book, const Decision& decision, Day as_of) {
  return remark("decision/later", {book.files.decisions[decision.place.file], decision.place.line, 0},
                "the decision about " + in_quotes(decision.subject) + " was taken after " + date_text(as_of) +
                    ", which stands for today; it is not counted");
}

// What was decided after the day that stands for today is not known yet on that day.
Diagnostics leave_out_later_decisions(Book& book, Day as_of) {
  Diagnostics remarks;
  std::erase_if(book.decisions, [&](const Decision& decision) {
    const bool is_later = local_day(decision.decided, book.settings.zone) > as_of;
    if (is_later) remarks.push_back(later(book, decision, as_of));
    return is_later;
  });
  return remarks;
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
  keep(leave_out_later_decisions(opened->book, as_of));
  keep(decisions_on_unknown_rules(opened->book, opened->rules));
  keep(unknown_words(opened->book, UnknownWords(opened->book, opened->rules)));
  keep(unmet_names(opened->book, opened->rules));
  opened->screening = std::make_unique<Screening>(opened->book, opened->rules, SupposedErrors{}, threads);
  return opened;
}

}  // namespace driftwarden
