// SPDX-License-Identifier: MIT
#include "rule/sampler.hpp"

namespace driftwarden {

namespace {

bool are_alike(const Sampler& a, const Sampler& b) {
  return a.nominal_l_min == b.nominal_l_min && a.fraction == b.fraction && a.cut_exponent == b.cut_exponent;
}

}  // namespace

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
