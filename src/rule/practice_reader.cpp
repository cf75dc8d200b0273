// SPDX-License-Identifier: MIT
#include "rule/practice_reader.hpp"

#include <algorithm>

namespace driftwarden {

std::vector<PracticeChoice> read_practice(TableReader& reader, TomlFile& file, std::string_view grounds_key,
                                          const std::string& pack) {
  std::vector<PracticeChoice> choices;
  const toml::table* table = reader.table("practice");
  if (table == nullptr) return choices;
  TableReader practice(*table, file, "[practice]");
  const std::string grounds = practice.required_text(grounds_key);
  for (const PracticeKey& known : practice_keys()) {
    const std::string value = practice.word_among(known.key, known.values, false);
    if (value.empty()) continue;
    const auto number = static_cast<std::size_t>(std::ranges::find(known.values, value) - known.values.begin());
    choices.push_back({&known, number, grounds, pack, practice.place_of_key(known.key)});
  }
  practice.refuse_other_keys();
  std::ranges::sort(choices, {}, &PracticeChoice::place);
  return choices;
}

}  // namespace driftwarden
