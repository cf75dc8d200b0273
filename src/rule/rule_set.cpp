// SPDX-License-Identifier: MIT
#include "rule/rule_set.hpp"

#include <algorithm>

#include "diagnostic/suggestion.hpp"

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
  std::map<std::string, std::string> file_of{{std::string(own_pack), "the program itself"}};
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
  std::vector<std::string> names;
  for (const auto& [name, sampler] : samplers) names.push_back(name);
  const auto look_at = [&](const Rule& rule, const Condition& condition, const std::string& sampler) {
    if (samplers.contains(sampler)) return;
    remarks.push_back(remark("rule/unknown-sampler", rule.place,
                             "rule " + in_quotes(rule.full_name()) +
                                 (condition.is_none_of ? " leaves out sampler " : " is for sampler ") +
                                 in_quotes(sampler) + ", which neither a pack nor the book describes",
                             did_you_mean(sampler, names)));
  };
  for (const Rule& rule : rules) {
    for (const Condition& condition : rule.where) {
      if (condition.field != "sampler") continue;
      for (const std::string& sampler : condition.words) look_at(rule, condition, sampler);
    }
  }
  return remarks;
}

KnownWords words_described(const RuleSet& set, std::span<const DescribedWord> words_of_book) {
  KnownWords described;
  const auto add = [&](Selector of, const std::string& word) { described[static_cast<std::size_t>(of)].insert(word); };
  for (const auto& [name, sampler] : set.samplers) add(Selector::sampler, name);
  for (const DescribedWord& word : all_of_packs(set.packs, &Pack::words)) add(word.of, word.word);
  for (const DescribedWord& word : words_of_book) add(word.of, word.word);
  return described;
}

// Every word that somebody describes or that a rule asks for, in force or not.
KnownWords words_known(const RuleSet& set, const std::vector<Rule>& rules) {
  KnownWords known = set.described_words;
  const auto add = [&known](Selector of, const std::string& word) { known[static_cast<std::size_t>(of)].insert(word); };
  for (const Rule& rule : rules) {
    for (const Condition& condition : rule.where) {
      for (const std::string& word : condition.words) {
        if (const auto of = named<Selector>(condition.field)) add(*of, word);
      }
    }
  }
  return known;
}

// What the program asks of a word is left out where no rule leans on the word.
void leave_out_idle(std::vector<Rule>& rules) {
  for (const Selector selector : selectors) {
    const bool is_leaned_on =
        std::ranges::any_of(rules, [&](const Rule& rule) { return rule.enabled && leans_on(rule, selector); });
    if (is_leaned_on) continue;
    std::erase_if(rules, [&](const Rule& rule) { return rule.full_name() == own_rule_name(selector); });
  }
}

void put_in_force(std::vector<Rule> rules, RuleSet& set) {
  for (Rule& rule : rules) (rule.enabled ? set.rules : set.disabled).push_back(std::move(rule));
}

}  // namespace

Result<RuleSet> combine(std::vector<Pack> packs, std::span<const Override> overrides,
                        std::span<const PracticeChoice> practice_of_book, std::span<const Sampler> samplers_of_book,
                        std::span<const DescribedWord> words_of_book) {
  Diagnostics faults = faults_of_names(packs);
  std::vector<Rule> rules = all_of_packs(packs, &Pack::rules);
  for (Rule& rule : own_rules()) rules.push_back(std::move(rule));
  append(faults, apply_overrides(rules, overrides));
  auto practice = choose_practice(all_of_packs(packs, &Pack::practice), practice_of_book);
  append(faults, practice.faults());
  auto samplers = combine_samplers(all_of_packs(packs, &Pack::samplers), samplers_of_book);
  append(faults, samplers.faults());
  auto facts = combine_facts(all_of_packs(packs, &Pack::words), words_of_book);
  append(faults, facts.faults());
  if (!faults.empty()) return faults;

  RuleSet set;
  set.packs = std::move(packs);
  set.samplers = *std::move(samplers);
  set.facts = *std::move(facts);
  set.practice = *std::move(practice);
  set.described_words = words_described(set, words_of_book);
  set.known_words = words_known(set, rules);
  leave_out_idle(rules);
  put_in_force(std::move(rules), set);
  set.remarks = remarks_on_samplers(set.rules, set.samplers);
  return set;
}

Result<RuleSet> combine(std::vector<Pack> packs, const HouseRules& house_rules) {
  return combine(std::move(packs), house_rules.overrides, house_rules.practice, house_rules.samplers,
                 house_rules.words);
}

}  // namespace driftwarden
