// SPDX-License-Identifier: MIT
#include "verdict/rulings.hpp"

#include <algorithm>

#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

std::vector<std::string> full_names(const RuleSet& rules) {
  std::vector<std::string> names;
  for (const auto* some : {&rules.rules, &rules.disabled}) {
    for (const Rule& rule : *some) names.push_back(rule.full_name());
  }
  for (const Selector selector : selectors) names.push_back(own_rule_name(selector));
  return names;
}

// A rule is often named without its pack.
std::string hint_for(const std::string& written, const std::vector<std::string>& names) {
  if (written == faulty_records_name) return "a record that can't be understood is mended, not ruled on";
  for (const std::string& name : names) {
    if (name.ends_with("/" + written)) return "did you mean " + in_quotes(name) + "?";
  }
  const std::string near = nearest(written, names);
  return near.empty() ? "name it as reports do: pack/id" : "did you mean " + in_quotes(near) + "?";
}

}  // namespace

Rulings::Rulings(const Book& book) {
  for (const Decision& decision : book.decisions) by_sample_[decision.subject].push_back(&decision);
  for (auto& [sample, decisions] : by_sample_) {
    std::stable_sort(decisions.begin(), decisions.end(),
                     [](const Decision* a, const Decision* b) { return a->decided < b->decided; });
  }
}

const std::vector<const Decision*>& Rulings::about(std::string_view sample) const {
  static const std::vector<const Decision*> none;
  const auto found = by_sample_.find(sample);
  return found == by_sample_.end() ? none : found->second;
}

const Decision* ruling_on(const std::vector<const Decision*>& decisions, std::string_view rule) {
  const auto last = std::find_if(decisions.rbegin(), decisions.rend(),
                                 [rule](const Decision* decision) { return decision->rule == rule; });
  return last == decisions.rend() ? nullptr : *last;
}

bool is_overruled(const Finding& finding) {
  return finding.decision != nullptr && finding.decision->ruling == Ruling::overrule;
}

Diagnostics decisions_on_unknown_rules(const Book& book, const RuleSet& rules) {
  Diagnostics remarks;
  if (book.decisions.empty()) return remarks;
  const std::vector<std::string> names = full_names(rules);
  for (const Decision& decision : book.decisions) {
    if (std::find(names.begin(), names.end(), decision.rule) != names.end()) continue;
    const Place place{book.files.decisions[decision.place.file], decision.place.line, 0};
    remarks.push_back(
        remark("decision/unknown-rule", place,
               in_quotes(decision.rule) + " is no rule of the book's packs; the decision rules on nothing",
               hint_for(decision.rule, names)));
  }
  return remarks;
}

}  // namespace driftwarden
