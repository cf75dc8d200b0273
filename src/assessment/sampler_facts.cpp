// SPDX-License-Identifier: MIT
#include "assessment/sampler_facts.hpp"

namespace driftwarden {

void SamplerFacts::add(TextId name, const SamplerFact& fact) {
  if (name >= numbers_.size()) numbers_.resize(name + 1, 0);
  numbers_[name] = static_cast<std::uint32_t>(facts_.size());
  facts_.push_back(fact);
}

const SamplerFact& SamplerFacts::of(TextId name) const { return facts_[name < numbers_.size() ? numbers_[name] : 0]; }

double nominal_flow(const SampleTable& samples, const SamplerFacts& samplers, Row sample) {
  const double own = field(samples.nominal_l_min, sample);
  return is_missing(own) ? samplers.of(field(samples.sampler, sample, TextId{0})).nominal_l_min : own;
}

}  // namespace driftwarden
