// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <utility>

#include "aerosol/aerosol_family.hpp"
#include "assessment/sampler_facts.hpp"
#include "book/settings.hpp"

namespace driftwarden {

// What a flow did to the mass that a sampler took, by the model of its cut.
struct MassChange {
  Preselector preselector;  // its law from the sample's nominal flow
  std::optional<Convention> convention;
  bool is_known = false;  // else nobody states its exponent, and there is only a range over those of the literature
  Bounds exponents;       // equal ends where it is known
  Bounds cut_um;          // at the flow
  MassErrorBand errors;   // equal ends of one aerosol; no figures beyond the flows of the law
  Bounds bias;            // against the convention, by the volume that is formed; missing where none is
};

// The aerosols that a book's samplers are held to: the one of book.toml, or those that it states, else the stated
// family.
AerosolFamily aerosols_of(const Settings& settings);

// The models of the samplers of a book whose curves are described, each at every nominal flow that its samples have.
class MassModels {
 public:
  MassModels() = default;
  MassModels(const SampleTable& samples, const SamplerFacts& samplers, const AerosolFamily& aerosols);

  // Nothing where nobody describes the sampler's curve.
  std::optional<MassChange> of(TextId sampler, double nominal_l_min, double flow_l_min) const;

 private:
  struct Model {
    Preselector preselector;
    std::optional<Convention> convention;
    FamilyBand band;
  };
  std::map<std::pair<TextId, double>, Model> models_;
};

}  // namespace driftwarden
