// SPDX-License-Identifier: MIT
#include "verdict/blanks_ahead.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_looked_at = 10000;

bool keeps(const Limit& limit, double figure) {
  const Side side = side_of_limit(figure, limit.low);
  return side == Side::above || (side == Side::on && includes_its_ends(limit.form));
}

bool is_on(const Rule& rule, BatchMeasure measure) {
  return rule.of == Subject::batch && rule.measure == static_cast<std::size_t>(measure);
}

bool concerns(const Rule& rule, std::string_view batch) {
  return std::ranges::all_of(rule.where, [&](const Condition& condition) {
    return applies(condition, {missing, batch}) != Applies::no;
  });
}

std::size_t least_count(const Limit& limit, bool is_share, std::size_t samples) {
  std::size_t count = 0;
  const auto figure = [&] {
    return is_share ? static_cast<double>(count) / static_cast<double>(samples) : static_cast<double>(count);
  };
  while (count < most_looked_at && !keeps(limit, figure())) ++count;
  return count;
}

}  // namespace

std::optional<MassFact> enough_blanks(std::span<const MassFacts> of_samples) {
  std::optional<MassFact> most;
  for (const MassFacts& facts : of_samples) {
    const auto& enough = facts.of(MassFactKind::blanks);
    if (!enough) return std::nullopt;
    if (!most || enough->value > most->value) most = enough;
  }
  return most;
}

BlanksAhead blanks_ahead(const RuleSet& rules, std::string_view batch, std::size_t samples,
                         const std::optional<MassFact>& enough) {
  BlanksAhead ahead;
  ahead.samples = samples;
  ahead.enough = enough;
  std::size_t by_share = 0;
  for (const Rule& rule : rules.rules) {
    const bool is_share = is_on(rule, BatchMeasure::blank_share);
    if (!is_share && !is_on(rule, BatchMeasure::blanks)) continue;
    if (!(rule.limit.low > 0) || !concerns(rule, batch) || (is_share && samples == 0)) continue;
    const std::size_t least = least_count(rule.limit, is_share, samples);
    ahead.rules.push_back({&rule, least, is_share});
    std::size_t& most_so_far = is_share ? by_share : ahead.least;
    most_so_far = std::max(most_so_far, least);
  }
  const std::size_t cap = enough ? static_cast<std::size_t>(enough->value) : most_looked_at;
  ahead.is_capped = by_share > std::max(cap, ahead.least);
  ahead.least = std::max(ahead.least, std::min(by_share, cap));
  return ahead;
}

}  // namespace driftwarden
