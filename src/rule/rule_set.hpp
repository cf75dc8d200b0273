// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "diagnostic/result.hpp"
#include "rule/house_rules.hpp"
#include "rule/mass_facts.hpp"
#include "rule/override.hpp"
#include "rule/pack.hpp"
#include "rule/practice.hpp"
#include "rule/rule.hpp"
#include "rule/sampler.hpp"
#include "rule/selector.hpp"

namespace driftwarden {

// All that a book is judged by.
struct RuleSet {
  std::vector<Pack> packs;     // as they were read
  std::vector<Rule> rules;     // those in force, in the order of the packs, overrides applied
  std::vector<Rule> disabled;  // the others, likewise
  std::map<std::string, Sampler> samplers;
  StatedFacts facts;                               // of methods and analyses
  KnownWords described_words;                      // by a pack or book.toml
  KnownWords known_words;                          // these, and those that a rule asks for
  std::map<std::string, PracticeChoice> practice;  // for practice_keys(), as choose_practice says
  Diagnostics remarks;
};

Result<RuleSet> combine(std::vector<Pack> packs, std::span<const Override> overrides,
                        std::span<const PracticeChoice> practice_of_book, std::span<const Sampler> samplers_of_book,
                        std::span<const DescribedWord> words_of_book = {});
Result<RuleSet> combine(std::vector<Pack> packs, const HouseRules& house_rules);

}  // namespace driftwarden
