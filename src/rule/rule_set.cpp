// SPDX-License-Identifier: MIT
#include "driftwarden/rule/rule_set.hpp"

#include <algorithm>

namespace driftwarden {

namespace {

void append(Diagnostics& faults, const Diagnostics& more) { faults.insert(faults.end(), more.begin(), more.end()); }

// All that the packs have of one thing, in their order.
template <class T>
std::vector<T> all_of_packs(const std::vector<Pack>& packs, std::vector<T> Pack::*things) {
  std::vector<T> all;
  for (const Pack& pack : packs) all.insert(all.end(), (pack.*things).begin(), (pack.*things).end());
  return all;
}

Diagnostics faults_of_names(const std::vector<Pack>& packs) {
  Diagnostics faults;
  std::map<std::string, std::string> file_of;
  for (const Pack& pack : packs) {
    const auto [first, is_new] = file_of.emplace(pack.name, pack.file);
    if (is_new) continue;
    faults.push_back(error("pack/twice", {pack.file, 0, 0}, "there is a pack " + in_quotes(pack.name) + " already",
                           "it is in " + in_quotes(first->second)));
  }
  return faults;
}

// A rule for a sampler that nobody describes may be right, but more often it is misspelt and never applies.
Diagnostics remarks_on_samplers(const std::vector<Rule>& rules, const std::map<std::string, Sampler>& samplers) {
  Diagnostics remarks;
  const auto look_at = [&](const Rule& rule, const std::string& sampler) {
    if (samplers.contains(sampler)) return;
    remarks.push_back(remark("rule/unknown-sampler", rule.place,
                             "rule " + in_quotes(rule.full_name()) + " is for sampler " + in_quotes(sampler) +
                                 ", which neither a pack nor the book describes"));
  };
  for (const Rule& rule : rules) {
    for (const Condition& condition : rule.where) {
      if (condition.field != "sampler") continue;
      for (const std::string& sampler : condition.any_of) look_at(rule, sampler);
    }
  }
  return remarks;
}

void put_in_force(std::vector<Rule> rules, RuleSet& set) {
  for (Rule& rule : rules) (rule.enabled ? set.rules : set.disabled).push_back(std::move(rule));
}

}  // namespace

Result<RuleSet> combine(std::vector<Pack> packs, std::span<const Override> overrides,
                        std::span<const PracticeChoice> practice_of_book, std::span<const Sampler> samplers_of_book) {
  Diagnostics faults = faults_of_names(packs);
  std::vector<Rule> rules = all_of_packs(packs, &Pack::rules);
  append(faults, apply_overrides(rules, overrides));
  auto practice = choose_practice(all_of_packs(packs, &Pack::practice), practice_of_book);
  append(faults, practice.faults());
  auto samplers = combine_samplers(all_of_packs(packs, &Pack::samplers), samplers_of_book);
  append(faults, samplers.faults());
  if (!faults.empty()) return faults;

  RuleSet set;
  set.packs = std::move(packs);
  set.samplers = *std::move(samplers);
  set.practice = *std::move(practice);
  put_in_force(std::move(rules), set);
  set.remarks = remarks_on_samplers(set.rules, set.samplers);
  return set;
}

Result<RuleSet> combine(std::vector<Pack> packs, const HouseRules& house_rules) {
  return combine(std::move(packs), house_rules.overrides, house_rules.practice, house_rules.samplers);
}

}  // namespace driftwarden
