// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "aerosol/convention.hpp"
#include "aerosol/cut_law.hpp"
#include "record/sample.hpp"

namespace driftwarden {

// What assessing needs of a sampler. Missing where nobody says it.
struct SamplerFact {
  double nominal_l_min = missing;
  CutLaw cut;               // with a d50 only where the whole curve is described
  double spread = missing;  // of the curve
  std::optional<Convention> convention;
};

// Facts about samplers, by the text number of the sampler's name.
class SamplerFacts {
 public:
  void add(TextId name, const SamplerFact& fact);
  const SamplerFact& of(TextId name) const;

 private:
  std::vector<SamplerFact> facts_ = std::vector<SamplerFact>(1);  // the first: of samplers that nobody describes
  std::vector<std::uint32_t> numbers_;                            // by text number, as far as there are any
};

// The flow a sample is meant to run at, L/min: its own, else its sampler's; missing where neither says.
double nominal_flow(const SampleTable& samples, const SamplerFacts& samplers, Row sample);

}  // namespace driftwarden
