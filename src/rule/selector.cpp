// SPDX-License-Identifier: MIT
#include "rule/selector.hpp"

#include <algorithm>

namespace driftwarden {
namespace {

constexpr std::string_view selector_words[] = {"sampler", "method", "analysis"};
constexpr std::string_view mass_fact_words[] = {"detection", "quantification", "loading", "blanks"};
static_assert(std::size(mass_fact_words) == mass_fact_kinds.size());

bool is_about_samples(const Rule& rule) {
  return rule.of == Subject::sample || rule.of == Subject::set || rule.of == Subject::reading ||
         rule.of == Subject::result;
}

Rule own_rule(Selector selector) {
  const std::string word(to_text(selector));
  Rule rule;
  rule.pack = own_pack;
  rule.edition = "2026-11-28";
  rule.id = "unknown-" + word;
  rule.measure = *measure_named(Subject::sample, word + ".known");
  rule.limit.form = Limit::Form::is;
  rule.limit.words = {"yes"};
  rule.limit.text = "is yes";
  rule.otherwise = Otherwise::qualify;
  rule.absent = Absent::skip;
  rule.reason = "Nobody describes this " + word +
                ": it may be misspelt, and the rules that go by it were not held to the sample.";
  rule.source =
      "House: a slip of the pen in a name must not switch rules off. A [" + word + ".…] entry in book.toml ends it.";
  rule.standing = Standing::house;
  rule.place = {"book.toml", 0, 0};
  return rule;
}

}  // namespace

template <>
std::span<const std::string_view> words<Selector>() {
  return selector_words;
}

template <>
std::span<const std::string_view> words<MassFactKind>() {
  return mass_fact_words;
}

std::string_view to_text(Selector selector) { return word_of(selector); }

bool asks_for(const Condition& condition, Selector selector) {
  if (condition.field == to_text(selector)) return true;
  return selector == Selector::sampler && (condition.field == "fraction" || condition.field == "nominal");
}

bool leans_on(const Rule& rule, Selector selector) {
  if (!is_about_samples(rule) || rule.pack == own_pack) return false;
  if (selector == Selector::sampler && is_from_nominal(rule)) return true;
  return std::ranges::any_of(rule.where, [&](const Condition& one) { return asks_for(one, selector); });
}

std::string own_rule_name(Selector selector) {
  return std::string(own_pack) + "/unknown-" + std::string(to_text(selector));
}

std::vector<Rule> own_rules() {
  std::vector<Rule> rules;
  for (const Selector selector : selectors) rules.push_back(own_rule(selector));
  return rules;
}

}  // namespace driftwarden
