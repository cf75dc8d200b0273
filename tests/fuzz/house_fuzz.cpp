// SPDX-License-Identifier: MIT
// Any bytes as the house rules of a book.toml: overrides, practices and samplers, put on top of a shipped pack. Nothing
// may crash; what is refused is refused with a message at a place; what is taken can be judged by.
#include <algorithm>
#include <cstdint>

#include "book/settings.hpp"
#include "fuzz/require.hpp"
#include "rule/house_rules.hpp"
#include "rule/rule_set.hpp"
#include "support/project_folder.hpp"
#include "verdict/rule_files.hpp"

namespace driftwarden {
namespace {

void have_reasons(const Diagnostics& faults) {
  require(!faults.empty(), "what is refused has a fault");
  for (const Diagnostic& fault : faults) {
    require(!fault.place.file.empty(), "a fault has a place: " + to_text(fault));
    require(!fault.id.empty() && !fault.message.empty(), "a fault says what is wrong");
  }
}

void stand_with_their_reasons(const HouseRules& house) {
  for (const Override& change : house.overrides)
    require(!change.rule.empty() && !change.reason.empty(), "an override names its rule and says why");
  for (const PracticeChoice& choice : house.practice) require(!choice.source_or_reason.empty(), "a practice says why");
}

void can_be_judged_by(const HouseRules& house) {
  static const Result<Pack> pack =
      read_pack(std::string(project_folder()) + "/rules/common-practice.toml", "common-practice.toml");
  require(pack.has_value(), "the shipped pack can be read");
  const Result<RuleSet> rules = combine({*pack}, house);
  if (!rules) return have_reasons(rules.faults());
  // Of the program's own rules only those are in force that something leans on.
  const auto is_of_pack = [](const Rule& rule) { return rule.pack == "common-practice"; };
  const auto in_force = std::count_if(rules->rules.begin(), rules->rules.end(), is_of_pack);
  require(static_cast<std::size_t>(in_force) + rules->disabled.size() == pack->rules.size(),
          "no rule of the pack is lost or added");
  for (const PracticeKey& key : practice_keys()) {
    const auto chosen = rules->practice.find(std::string(key.key));
    if (key.is_of_results && chosen == rules->practice.end()) continue;
    require(chosen != rules->practice.end(), "each practice is chosen: " + std::string(key.key));
    require(chosen->second.value < key.values.size(), "a practice is one of those there are");
  }
}

}  // namespace
}  // namespace driftwarden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace driftwarden;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Result<HouseRules> house = parse_house_rules(text, "fuzz.toml");
  if (!house) {
    have_reasons(house.faults());
    return 0;
  }
  stand_with_their_reasons(*house);
  can_be_judged_by(*house);
  return 0;
}
