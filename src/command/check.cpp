// SPDX-License-Identifier: MIT
#include <algorithm>
#include <ostream>

#include "book/one_cause.hpp"
#include "command/opened_book.hpp"
#include "doubt/doubtful.hpp"
#include "quantity/rounding.hpp"
#include "verdict/formula_names.hpp"
#include "verdict/unmet_names.hpp"

namespace driftwarden {

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
  Diagnostics idle = rules ? decisions_on_unknown_rules(*book, *rules) : Diagnostics();
  if (rules) {
    for (const Diagnostics& more : {unknown_words(*book, UnknownWords(*book, *rules)), unmet_names(*book, *rules)})
      idle.insert(idle.end(), more.begin(), more.end());
  }
  tell(surroundings.err, idle);
  const std::size_t remarks = book->problems.size() - static_cast<std::size_t>(errors) +
                              (rules ? rules->remarks.size() : 0) + doubts.size() + formulas.size() + idle.size();
  surroundings.out << book->settings.title << ": " << counted(book->instruments.size(), "instrument", "instruments")
                   << ", " << counted(book->certificates.size(), "certificate", "certificates") << ", "
                   << counted(book->samples.size(), "sample", "samples and blanks") << ", "
                   << counted(book->readings.size(), "reading", "readings") << ", "
                   << counted(book->decisions.size(), "decision", "decisions") << "; "
                   << counted(faults, "fault", "faults") << ", " << counted(remarks, "remark", "remarks") << "\n";
  return faults == 0 ? all_is_well : cannot_be_used;
}

}  // namespace driftwarden
