// SPDX-License-Identifier: MIT
#include "history/run_rule_names.hpp"

#include <array>
#include <charconv>

namespace driftwarden {
namespace {

struct Named {
  RunPattern pattern;
  std::string_view name;  // of a pattern with a length: up to it
  std::size_t shortest;   // 0: the pattern has no length
};

constexpr std::size_t longest = 50;
constexpr std::array<Named, 8> names{{
    {RunPattern::beyond_limit, "beyond-limits", 0},
    {RunPattern::two_of_three, "two-of-three", 0},
    {RunPattern::four_of_five, "four-of-five", 0},
    {RunPattern::one_side, "run-of-", 2},
    {RunPattern::trend, "trend-of-", 3},
    {RunPattern::alternating, "alternating-of-", 3},
    {RunPattern::stratification, "inside-of-", 2},
    {RunPattern::mixture, "mixture-of-", 2},
}};

std::optional<std::size_t> length_from(std::string_view digits) {
  std::size_t length = 0;
  const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), length);
  if (fault != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
  return length;
}

std::size_t points_of(RunPattern pattern) {
  if (pattern == RunPattern::two_of_three) return 3;
  return pattern == RunPattern::four_of_five ? 5 : 1;
}

std::optional<RunRule> rule_named(std::string_view word) {
  for (const Named& named : names) {
    if (named.shortest == 0 && word == named.name) return RunRule{named.pattern, points_of(named.pattern)};
    if (named.shortest == 0 || !word.starts_with(named.name)) continue;
    const std::optional<std::size_t> length = length_from(word.substr(named.name.size()));
    if (length && *length >= named.shortest && *length <= longest) return RunRule{named.pattern, *length};
  }
  return std::nullopt;
}

}  // namespace

std::string name_of(const RunRule& rule) {
  for (const Named& named : names) {
    if (named.pattern == rule.pattern)
      return std::string(named.name) + (named.shortest == 0 ? "" : std::to_string(rule.length));
  }
  return {};
}

std::optional<std::vector<RunRule>> run_rules_named(std::string_view word) {
  if (word == "western-electric")
    return std::vector<RunRule>(western_electric_rules.begin(), western_electric_rules.end());
  if (word == "nelson") return std::vector<RunRule>(nelson_rules.begin(), nelson_rules.end());
  const std::optional<RunRule> rule = rule_named(word);
  if (!rule) return std::nullopt;
  return std::vector<RunRule>{*rule};
}

std::vector<std::string> known_run_rules() {
  std::vector<std::string> known{"western-electric", "nelson", "run-of-7", "run-of-8"};
  for (const RunRule& rule : nelson_rules) known.push_back(name_of(rule));
  return known;
}

}  // namespace driftwarden
