// SPDX-License-Identifier: MIT
#include <algorithm>
#include <ostream>

#include "book/altered_rows.hpp"
#include "book/book_table.hpp"
#include "book/consignment.hpp"
#include "book/one_cause.hpp"
#include "command/opened_book.hpp"
#include "doubt/doubtful.hpp"
#include "quantity/rounding.hpp"
#include "verdict/formula_names.hpp"
#include "verdict/unmet_names.hpp"

namespace driftwarden {
namespace {

// Every table, so that whoever wrote some rows sees whether they were read; those that few books have only where this
// one does.
std::string records_counted(const Book& book) {
  std::string text;
  for (const BookTable& table : book_tables()) {
    if (table.is_kept_by_few && (book.files.*table.files).empty()) continue;
    text += (text.empty() ? "" : ", ") + counted(table.size(book), std::string(table.one), std::string(table.many));
  }
  return text;
}

}  // namespace

int run_check(const CheckOptions& options, Surroundings& surroundings) {
  const Result<Book> book = read_watched(options.book, surroundings);
  if (!book) {
    tell(surroundings.err, book.faults());
    return cannot_be_used;
  }
  tell_all(options.all ? book->problems : told_by_cause(*book), surroundings);
  const Result<RuleSet> rules = read_rules(*book, surroundings.share / "rules");
  tell(surroundings.err, rules ? rules->remarks : rules.faults());
  const Diagnostics doubts = doubts_of(*book, rules ? sampler_facts(*book, *rules) : SamplerFacts{});
  tell_all(doubts, surroundings);
  const Diagnostics formulas = formula_names(*book);
  tell(surroundings.err, formulas);
  const auto errors = std::count_if(book->problems.begin(), book->problems.end(), is_error);
  const std::size_t faults = static_cast<std::size_t>(errors) + rules.faults().size();
  Diagnostics idle = altered_rows(*book);
  if (rules) {
    for (const Diagnostics& more :
         {decisions_on_unknown_rules(*book, *rules), unknown_words(*book, UnknownWords(*book, *rules)),
          unmet_names(*book, *rules), idle_consignments(*book)})
      idle.insert(idle.end(), more.begin(), more.end());
  }
  tell(surroundings.err, idle);
  const std::size_t remarks = book->problems.size() - static_cast<std::size_t>(errors) +
                              (rules ? rules->remarks.size() : 0) + doubts.size() + formulas.size() + idle.size();
  surroundings.out << book->settings.title << ": " << records_counted(*book) << "; "
                   << counted(faults, "fault", "faults") << ", " << counted(remarks, "remark", "remarks") << "\n";
  return faults == 0 ? all_is_well : cannot_be_used;
}

}  // namespace driftwarden
