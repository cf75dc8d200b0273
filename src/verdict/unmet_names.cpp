// SPDX-License-Identifier: MIT
#include "verdict/unmet_names.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "diagnostic/suggestion.hpp"
#include "verdict/unknown_words.hpp"

namespace driftwarden {
namespace {

using Names = std::set<std::string, std::less<>>;

Names instruments_of(const Book& book, InstrumentKind kind) {
  Names names;
  for (const Instrument& instrument : book.instruments) {
    if (instrument.kind == kind) names.insert(instrument.name);
  }
  return names;
}

Names texts_of(const Book& book, const Column<TextId>& column) {
  Names names;
  std::set<TextId> texts;
  for (std::size_t row = 0; row < column.size(); ++row) texts.insert(column[row]);
  texts.erase(0);
  for (const TextId text : texts) names.emplace(book.texts.text(text));
  return names;
}

// What samples have, and what is described though no sample has it yet.
Names words_of(const Book& book, const RuleSet& rules, Selector of) {
  Names names = texts_of(book, column_of(book.samples, of));
  const std::set<std::string>& described = rules.described_words[static_cast<std::size_t>(of)];
  names.insert(described.begin(), described.end());
  return names;
}

Names fractions(const RuleSet& rules) {
  Names names;
  for (const auto& [name, sampler] : rules.samplers) names.insert(sampler.fraction);
  return names;
}

// None until the laboratory has answered: then nobody can say what it will call them.
Names analytes_of(const Book& book) {
  Names names;
  for (const LaboratoryResult& result : book.results) names.insert(result.analyte);
  return names;
}

// A field whose words are names, and the names there are. `is_of_packs`: of words that packs for many books ask for.
struct NamingField {
  std::string_view field;
  bool is_of_packs;
  Names (*names)(const Book& book, const RuleSet& rules, Subject of);
};
constexpr NamingField naming_fields[] = {
    {"pump", false, [](const Book& b, const RuleSet&, Subject) { return instruments_of(b, InstrumentKind::pump); }},
    {"calibrator", false,
     [](const Book& b, const RuleSet&, Subject) { return instruments_of(b, InstrumentKind::calibrator); }},
    {"instrument", false,
     [](const Book& b, const RuleSet&, Subject of) {
       return instruments_of(b, of == Subject::pump ? InstrumentKind::pump : InstrumentKind::calibrator);
     }},
    {"batch", false, [](const Book& b, const RuleSet&, Subject) { return texts_of(b, b.samples.batch); }},
    {"by", false, [](const Book& b, const RuleSet&, Subject) { return texts_of(b, b.readings.by); }},
    {"method", true, [](const Book& b, const RuleSet& r, Subject) { return words_of(b, r, Selector::method); }},
    {"analysis", true, [](const Book& b, const RuleSet& r, Subject) { return words_of(b, r, Selector::analysis); }},
    {"analyte", true, [](const Book& b, const RuleSet&, Subject) { return analytes_of(b); }},
    {"fraction", true, [](const Book&, const RuleSet& r, Subject) { return fractions(r); }},
};

bool is_of_the_book(const Rule& rule, const Book& book) {
  return std::ranges::find(book.settings.packs, rule.place.file) != book.settings.packs.end();
}

Diagnostic told(const Rule& rule, const Condition& condition, const std::string& word, const Names& names) {
  const std::vector<std::string> known(names.begin(), names.end());
  const std::string near = nearest(word, known);
  return remark(
      "rule/unmet-name", rule.place,
      rule.full_name() + (condition.is_none_of ? " leaves out " : " asks for ") + condition.field + " " +
          in_quotes(word) + ", which nothing in this book has: it " +
          (condition.is_none_of ? "leaves out" : "is held to") + " nothing by that",
      near.empty() ? "correct the name, or leave it if it is still to come" : "did you mean " + in_quotes(near) + "?");
}

class UnmetNames {
 public:
  UnmetNames(const Book& book, const RuleSet& rules) : book_(book), rules_(rules) {}

  Diagnostics remarks() {
    for (const Rule& rule : rules_.rules) {
      for (const NamingField& naming : naming_fields) {
        if (!naming.is_of_packs || is_of_the_book(rule, book_)) look_at(rule, naming);
      }
    }
    return std::move(remarks_);
  }

 private:
  void look_at(const Rule& rule, const NamingField& naming) {
    for (const Condition& condition : rule.where) {
      if (condition.field != naming.field) continue;
      const Names& names = names_of(naming, rule.of);
      if (names.empty() && rule.of == Subject::result && naming.field == "analyte") continue;
      for (const std::string& word : condition.words) {
        if (names.count(word) == 0) remarks_.push_back(told(rule, condition, word, names));
      }
    }
  }
  // Gathered from the book once, whatever the number of rules.
  const Names& names_of(const NamingField& naming, Subject of) {
    const auto [at, is_new] = known_.try_emplace({&naming, of});
    if (is_new) at->second = naming.names(book_, rules_, of);
    return at->second;
  }

  const Book& book_;
  const RuleSet& rules_;
  std::map<std::pair<const NamingField*, Subject>, Names> known_;
  Diagnostics remarks_;
};

}  // namespace

Diagnostics unmet_names(const Book& book, const RuleSet& rules) { return UnmetNames(book, rules).remarks(); }

}  // namespace driftwarden
