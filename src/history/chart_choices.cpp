// SPDX-License-Identifier: MIT
#include "history/chart_choices.hpp"

#include <algorithm>

#include "diagnostic/suggestion.hpp"
#include "history/run_rule_names.hpp"

namespace driftwarden {
namespace {

void add_once(std::vector<RunRule>& rules, const RunRule& rule) {
  const auto is_same = [&](const RunRule& other) {
    return other.pattern == rule.pattern && other.length == rule.length;
  };
  if (std::none_of(rules.begin(), rules.end(), is_same)) rules.push_back(rule);
}

Result<std::vector<RunRule>> rules_from(const std::vector<std::string>& words, const Place& place) {
  std::vector<RunRule> rules;
  Diagnostics faults;
  for (const std::string& word : words) {
    const auto named = run_rules_named(word);
    if (!named) {
      faults.push_back(error("history/unknown-run-rule", place, in_quotes(word) + " is no run rule",
                             did_you_mean(word, known_run_rules())));
      continue;
    }
    for (const RunRule& rule : *named) add_once(rules, rule);
  }
  if (!faults.empty()) return faults;
  return rules;
}

}  // namespace

Result<ChartChoices> chart_choices(const Settings::History& said) {
  ChartChoices choices;
  choices.baseline_from = said.baseline_from;
  choices.baseline_to = said.baseline_to;
  if (said.baseline) choices.baseline = static_cast<std::size_t>(*said.baseline);
  choices.target = said.target;
  choices.ewma_lambda = said.ewma_lambda.value_or(choices.ewma_lambda);
  choices.ewma_width = said.ewma_width.value_or(choices.ewma_width);
  choices.cusum_k = said.cusum_k.value_or(choices.cusum_k);
  choices.cusum_h = said.cusum_h.value_or(choices.cusum_h);
  if (!said.run_rules) return choices;
  Result<std::vector<RunRule>> rules = rules_from(*said.run_rules, said.place);
  if (!rules) return rules.faults();
  choices.rules = *std::move(rules);
  return choices;
}

}  // namespace driftwarden
