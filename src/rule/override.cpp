// SPDX-License-Identifier: MIT
#include "rule/override.hpp"

#include <algorithm>

#include "diagnostic/suggestion.hpp"

namespace driftwarden {

namespace {

Rule* rule_named(std::vector<Rule>& rules, const std::string& full_name) {
  const auto rule = std::ranges::find_if(rules, [&](const Rule& r) { return r.full_name() == full_name; });
  return rule == rules.end() ? nullptr : &*rule;
}

Diagnostic fault_of_unknown_rule(const std::vector<Rule>& rules, const Override& change) {
  std::vector<std::string> names;
  std::string hint;
  for (const Rule& rule : rules) {
    names.push_back(rule.full_name());
    if (rule.id == change.rule) hint = "did you mean '" + names.back() + "'?";
  }
  if (hint.empty()) hint = did_you_mean(change.rule, names);
  return error("override/unknown-rule", change.place, "no pack of the book has a rule " + in_quotes(change.rule), hint);
}

std::optional<Diagnostic> fault_of_override(const Rule& rule, const Override& change) {
  if (change.reason.empty()) {
    return error("override/no-reason", change.place, "the override of " + in_quotes(change.rule) + " has no reason",
                 "say why this book departs from the rule");
  }
  if (!change.limit && !change.otherwise && !change.enabled) {
    return error("override/no-change", change.place, "the override of " + in_quotes(change.rule) + " changes nothing",
                 "write a limit, otherwise or enabled");
  }
  if (!rule.overridden) return std::nullopt;
  return error("override/twice", change.place, "there is an override of " + in_quotes(change.rule) + " already",
               "it is at " + to_text(rule.overridden->place));
}

Diagnostics override_rule(Rule& rule, const Override& change) {
  if (auto fault = fault_of_override(rule, change)) return {*fault};
  const std::string_view otherwise_before = to_text(rule.otherwise);
  rule.overridden = {rule.limit.text, std::string(otherwise_before), change.reason, change.place, rule.enabled};
  rule.otherwise = change.otherwise.value_or(rule.otherwise);
  rule.enabled = change.enabled.value_or(rule.enabled);
  if (!change.limit) return {};
  const Result<Limit> limit = limit_of(*change.limit, measure_of(rule));
  if (limit) rule.limit = *limit;
  return limit.faults();
}

}  // namespace

Diagnostics apply_overrides(std::vector<Rule>& rules, std::span<const Override> overrides) {
  Diagnostics faults;
  for (const Override& change : overrides) {
    Rule* rule = rule_named(rules, change.rule);
    const Diagnostics found =
        rule == nullptr ? Diagnostics{fault_of_unknown_rule(rules, change)} : override_rule(*rule, change);
    faults.insert(faults.end(), found.begin(), found.end());
  }
  return faults;
}

}  // namespace driftwarden
