// SPDX-License-Identifier: MIT
#include "rule/word_reader.hpp"

#include <cmath>

#include "quantity/number.hpp"
#include "record/sample.hpp"
#include "rule/stated_amount.hpp"

namespace driftwarden {
namespace {

double read_mass(TableReader& reader, TomlFile& file, MassFact& fact) {
  fact.written = reader.required_text("mass", "write it with its unit, as in \"0.1 mg\"");
  if (fact.written.empty()) return missing;
  const Place place = file.place_of(*reader.find("mass"));
  const auto stated = stated_amount(fact.written, {"a mass", Dimension::mass, {}}, place);
  file.faults.insert(file.faults.end(), stated.faults().begin(), stated.faults().end());
  if (!stated) return missing;
  if (stated->amount.value > 0) return stated->amount.value;
  reader.fault("method/no-mass", place, in_quotes(fact.written) + " is no mass", "write a mass above 0");
  return missing;
}

double read_count(TableReader& reader, MassFact& fact) {
  if (reader.require("most", "write how many are enough for any set, as in most = 10") == nullptr) return missing;
  const std::optional<double> most = reader.number("most");
  if (!most) return missing;
  fact.written = shortest(*most);
  if (*most >= 1 && *most == std::floor(*most)) return *most;
  reader.fault("method/no-count", reader.place_of_key("most"), "'most' of " + reader.what() + " is " + fact.written,
               "write a whole number of blanks, 1 or more");
  return missing;
}

// Nothing where it can't be used (told).
std::optional<MassFact> read_fact(MassFactKind kind, const toml::table& table, TableReader& word, TomlFile& file) {
  const std::string name(word_of(kind));
  TableReader reader(table, file, name + " of " + word.what());
  MassFact fact;
  fact.place = reader.place();
  fact.value = kind == MassFactKind::blanks ? read_count(reader, fact) : read_mass(reader, file, fact);
  fact.source = reader.required_text("source", "name the document and the clause, or the laboratory");
  const std::optional<Standing> standing = reader.required_word<Standing>("standing");
  reader.refuse_other_keys();
  if (standing == Standing::memory) {
    reader.fault("method/from-memory", reader.place_of_key("standing"), reader.what() + " is from memory",
                 "leave it out, or name where it was read");
    return std::nullopt;
  }
  if (is_missing(fact.value) || fact.source.empty() || !standing) return std::nullopt;
  fact.standing = *standing;
  return fact;
}

void check_order(TableReader& reader, const MassFacts& facts) {
  const auto& detection = facts.of(MassFactKind::detection);
  const auto& quantification = facts.of(MassFactKind::quantification);
  if (!detection || !quantification || detection->value <= quantification->value) return;
  reader.fault("method/crossed", detection->place,
               "the detection of " + reader.what() + ", " + detection->written + ", lies above its quantification, " +
                   quantification->written,
               "what can be stated as a figure can be told from nothing: one of the two is wrong");
}

void read_facts(TableReader& reader, TomlFile& file, const std::string& pack, MassFacts& facts) {
  for (const MassFactKind kind : mass_fact_kinds) {
    const toml::table* table = reader.table(word_of(kind));
    if (table == nullptr) continue;
    facts.of(kind) = read_fact(kind, *table, reader, file);
    if (facts.of(kind)) facts.of(kind)->pack = pack;
  }
  check_order(reader, facts);
}

DescribedWord read_word(Selector of, const TomlEntry& entry, TomlFile& file, const std::string& pack) {
  const std::string kind(to_text(of));
  DescribedWord word{of, std::string(entry.key->str()), {}, {}, file.place_of(*entry.key)};
  check_cell_text(word.word, word.place, file);
  TableReader reader(*entry.value->as_table(), file, kind + " " + in_quotes(word.word));
  word.title = reader.required_text("title", "say what it is, in a line");
  word.source = reader.text("source");
  read_facts(reader, file, pack, word.facts);
  reader.refuse_other_keys();
  return word;
}

void read_words_of(Selector of, TableReader& reader, TomlFile& file, const std::string& pack,
                   std::vector<DescribedWord>& words) {
  const toml::table* table = reader.table(to_text(of));
  if (table == nullptr) return;
  for (const TomlEntry& entry : entries_of(*table)) {
    if (entry.value->is_table()) {
      words.push_back(read_word(of, entry, file, pack));
      continue;
    }
    const std::string kind(to_text(of));
    reader.fault("toml/wrong-type", file.place_of(*entry.value),
                 kind + " " + in_quotes(entry.key->str()) + " is " + std::string(type_of(*entry.value)),
                 "write it as [" + kind + ".NAME]");
  }
}

}  // namespace

std::vector<DescribedWord> read_described_words(TableReader& reader, TomlFile& file, const std::string& pack) {
  std::vector<DescribedWord> words;
  read_words_of(Selector::method, reader, file, pack, words);
  read_words_of(Selector::analysis, reader, file, pack, words);
  return words;
}

}  // namespace driftwarden
