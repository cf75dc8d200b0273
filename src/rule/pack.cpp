// SPDX-License-Identifier: MIT
#include "rule/pack.hpp"

#include <map>

#include "rule/practice_reader.hpp"
#include "rule/rule_reader.hpp"
#include "rule/sampler_reader.hpp"
#include "rule/toml_reader.hpp"
#include "rule/word_reader.hpp"

namespace driftwarden {

namespace {

void read_heading(TableReader& reader, TomlFile& file, Pack& pack) {
  pack.name = reader.required_text("pack");
  if (!pack.name.empty()) check_name(pack.name, file.place_of(*reader.find("pack")), file);
  pack.title = reader.required_text("title");
  pack.edition = reader.required_text("edition", R"(the date of its last change, as in "2026-11-25")");
  pack.note = reader.text("note");
}

void refuse_second_rules(const std::vector<Rule>& rules, TomlFile& file) {
  std::map<std::string, std::uint32_t> line_of;
  for (const Rule& rule : rules) {
    const auto [first, is_new] = line_of.emplace(rule.id, rule.place.line);
    if (is_new || rule.id.empty()) continue;
    file.faults.push_back(error("rule/twice", rule.place, "there is a rule " + in_quotes(rule.id) + " already",
                                "it is on line " + std::to_string(first->second)));
  }
}

Pack read_pack(const toml::table& table, TomlFile& file) {
  Pack pack;
  pack.file = file.name;
  TableReader reader(table, file, "a rule pack");
  read_heading(reader, file, pack);
  pack.samplers = read_samplers(reader, file, pack.name);
  pack.words = read_described_words(reader, file, pack.name);
  pack.practice = read_practice(reader, file, "source", pack.name);
  for (const toml::table* rule : reader.tables("rule")) pack.rules.push_back(read_rule(*rule, file, pack));
  refuse_second_rules(pack.rules, file);
  reader.refuse_other_keys();
  return pack;
}

}  // namespace

Result<Pack> parse_pack(std::string_view text, const std::string& file) {
  TomlFile source{file, {}};
  const std::optional<toml::table> table = toml_of(text, source);
  if (!table) return source.faults;
  Pack pack = read_pack(*table, source);
  if (!source.faults.empty()) return in_reading_order(std::move(source.faults));
  return pack;
}

}  // namespace driftwarden
