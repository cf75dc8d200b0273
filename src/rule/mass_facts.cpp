// SPDX-License-Identifier: MIT
#include "rule/mass_facts.hpp"

namespace driftwarden {
namespace {

void fill_gaps(MassFacts& facts, const MassFacts& more) {
  for (const MassFactKind kind : mass_fact_kinds) {
    if (!facts.of(kind)) facts.of(kind) = more.of(kind);
  }
}

void append_disagreements(const DescribedWord& word, const MassFacts& first, Diagnostics& faults) {
  for (const MassFactKind kind : mass_fact_kinds) {
    const std::optional<MassFact>& stated = word.facts.of(kind);
    const std::optional<MassFact>& other = first.of(kind);
    if (!stated || !other || stated->value == other->value) continue;
    faults.push_back(error("method/disagreement", stated->place,
                           "the " + std::string(word_of(kind)) + " of " + std::string(to_text(word.of)) + " " +
                               in_quotes(word.word) + " is not the one at " + to_text(other->place),
                           "state it in book.toml, which wins"));
  }
}

}  // namespace

Result<StatedFacts> combine_facts(std::span<const DescribedWord> of_packs, std::span<const DescribedWord> of_book) {
  StatedFacts of_the_book;
  for (const DescribedWord& word : of_book) fill_gaps(of_the_book[{word.of, word.word}], word.facts);
  StatedFacts facts;
  Diagnostics faults;
  for (const DescribedWord& word : of_packs) {
    MassFacts& known = facts[{word.of, word.word}];
    DescribedWord open = word;  // of what the book leaves open
    const auto settled = of_the_book.find({word.of, word.word});
    for (const MassFactKind kind : mass_fact_kinds) {
      if (settled != of_the_book.end() && settled->second.of(kind)) open.facts.of(kind).reset();
    }
    append_disagreements(open, known, faults);
    fill_gaps(known, open.facts);
  }
  if (!faults.empty()) return faults;
  for (const auto& [word, of_it] : of_the_book) {
    MassFacts all = of_it;
    fill_gaps(all, facts[word]);
    facts[word] = all;
  }
  return facts;
}

MassFacts facts_of(const StatedFacts& stated, const std::string& method, const std::string& analysis) {
  MassFacts facts;
  for (const auto& word : {std::pair(Selector::analysis, analysis), std::pair(Selector::method, method)}) {
    const auto found = stated.find(word);
    if (found != stated.end()) fill_gaps(facts, found->second);
  }
  return facts;
}

}  // namespace driftwarden
