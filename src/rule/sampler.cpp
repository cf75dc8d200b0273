// SPDX-License-Identifier: MIT
#include "rule/sampler.hpp"

#include <cmath>

#include "aerosol/slip.hpp"

namespace driftwarden {

namespace {

constexpr std::string_view cut_kinds[] = {"impactor", "elutriator", "cyclone"};

bool are_same(const Bounds& a, const Bounds& b) {
  return (a.lower == b.lower && a.upper == b.upper) || (std::isnan(a.lower) && std::isnan(b.lower));
}

bool are_alike(const Sampler& a, const Sampler& b) {
  return a.nominal_l_min == b.nominal_l_min && a.fraction == b.fraction && a.cut_exponent == b.cut_exponent &&
         a.cut_kind == b.cut_kind && a.cut_um == b.cut_um && a.cut_spread == b.cut_spread &&
         are_same(a.cut_flows_l_min, b.cut_flows_l_min);
}

double exponent_of(const Sampler& sampler) {
  if (sampler.cut_kind == CutKind::impactor) return impactor_exponent;
  if (sampler.cut_kind == CutKind::elutriator) return elutriator_exponent;
  return sampler.cut_exponent.value_or(no_figure);
}

}  // namespace

template <>
std::span<const std::string_view> words<CutKind>() {
  return cut_kinds;
}

bool is_of_theory(const std::optional<CutKind>& kind) {
  return kind == CutKind::impactor || kind == CutKind::elutriator;
}

CutLaw cut_law_of(const Sampler& sampler) {
  return {.nominal_um = sampler.cut_um.value_or(no_figure),
          .nominal_l_min = sampler.nominal_l_min.value_or(no_figure),
          .exponent = exponent_of(sampler),
          .mean_free_path_um = is_of_theory(sampler.cut_kind) ? mean_free_path_of_air_um : 0,
          .flows_l_min = sampler.cut_flows_l_min};
}

Result<std::map<std::string, Sampler>> combine_samplers(std::span<const Sampler> of_packs,
                                                        std::span<const Sampler> of_book) {
  std::map<std::string, Sampler> settled;
  for (const Sampler& sampler : of_book) settled.emplace(sampler.name, sampler);
  std::map<std::string, Sampler> samplers = settled;
  Diagnostics faults;
  for (const Sampler& sampler : of_packs) {
    const auto [first, is_first] = samplers.emplace(sampler.name, sampler);
    if (is_first || settled.contains(sampler.name) || are_alike(first->second, sampler)) continue;
    faults.push_back(error("sampler/disagreement", sampler.place,
                           "sampler " + in_quotes(sampler.name) + " is not the one at " + to_text(first->second.place),
                           "describe it in book.toml, which wins"));
  }
  if (!faults.empty()) return faults;
  return samplers;
}

}  // namespace driftwarden
