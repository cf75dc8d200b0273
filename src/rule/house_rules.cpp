// SPDX-License-Identifier: MIT
#include "rule/house_rules.hpp"

#include "rule/limit_reader.hpp"
#include "rule/practice_reader.hpp"
#include "rule/sampler_reader.hpp"
#include "rule/toml_reader.hpp"
#include "rule/word_reader.hpp"

namespace driftwarden {

namespace {

Override read_override(const toml::table& table, TomlFile& file) {
  TableReader reader(table, file, "an override");
  Override change;
  change.place = reader.place();
  change.rule = reader.required_text("rule", "write its full name, as in 'common-practice/drift'");
  if (!change.rule.empty()) reader.call("the override of " + in_quotes(change.rule));
  const FoundLimit found = read_limit(reader, file);
  change.limit = found.limit;
  change.otherwise = reader.word<Otherwise>("otherwise");
  change.enabled = reader.yes_no("enabled");
  change.reason = reader.required_text("reason", "say why this book departs from the rule");
  reader.refuse_other_keys();
  return change;
}

HouseRules read_house_rules(const toml::table& table, TomlFile& file) {
  TableReader reader(table, file, "book.toml");
  HouseRules house;
  for (const toml::table* change : reader.tables("override")) house.overrides.push_back(read_override(*change, file));
  house.practice = read_practice(reader, file, "reason", "");
  house.samplers = read_samplers(reader, file, "");
  house.words = read_described_words(reader, file, "");
  return house;
}

}  // namespace

Result<HouseRules> parse_house_rules(std::string_view book_toml_text, const std::string& file) {
  TomlFile source{file, {}};
  const std::optional<toml::table> table = toml_of(book_toml_text, source);
  if (!table) return source.faults;
  HouseRules house = read_house_rules(*table, source);
  if (!source.faults.empty()) return in_reading_order(std::move(source.faults));
  return house;
}

}  // namespace driftwarden
