// SPDX-License-Identifier: MIT
#include "assessment/mass_change.hpp"

#include <algorithm>

#include "assessment/cut_size.hpp"

namespace driftwarden {
namespace {

// The cuts at a flow, by the ends of some exponents.
Bounds cuts_at(CutLaw law, const Bounds& exponents, double flow_l_min) {
  const auto with = [&](double exponent) {
    law.exponent = exponent;
    return cut_at_flow(law, flow_l_min);
  };
  const auto [lower, upper] = std::minmax({with(exponents.lower), with(exponents.upper)});
  return {lower, upper};
}

}  // namespace

AerosolFamily aerosols_of(const Settings& settings) {
  if (!settings.aerosol) return {};
  const Settings::Aerosol& said = *settings.aerosol;
  return {{said.mmad_um.first, said.mmad_um.second}, {said.gsd.first, said.gsd.second}};
}

MassModels::MassModels(const SampleTable& samples, const SamplerFacts& samplers, const AerosolFamily& aerosols) {
  for (Row row = 0; row < samples.size(); ++row) {
    const TextId name = field(samples.sampler, row, TextId{0});
    const SamplerFact& sampler = samplers.of(name);
    const double nominal_l_min = nominal_flow(samples, samplers, row);
    if (is_missing(sampler.cut.nominal_um) || is_missing(nominal_l_min)) continue;
    if (models_.contains({name, nominal_l_min})) continue;
    const Preselector preselector{with_nominal(sampler.cut, nominal_l_min), sampler.spread};
    models_.emplace(std::pair{name, nominal_l_min},
                    Model{preselector, sampler.convention, FamilyBand(preselector, aerosols, sampler.convention)});
  }
}

std::optional<MassChange> MassModels::of(TextId sampler, double nominal_l_min, double flow_l_min) const {
  if (is_missing(nominal_l_min)) return std::nullopt;
  const auto found = models_.find({sampler, nominal_l_min});
  if (found == models_.end()) return std::nullopt;
  const Model& model = found->second;
  const CutLaw& law = model.preselector.cut;
  MassChange change;
  change.preselector = model.preselector;
  change.convention = model.convention;
  change.is_known = !is_missing(law.exponent);
  change.exponents = change.is_known ? Bounds{law.exponent, law.exponent} : cyclone_exponents;
  change.cut_um = cuts_at(law, change.exponents, flow_l_min);
  change.errors = change.is_known ? model.band.at(flow_l_min) : model.band.at(flow_l_min, change.exponents);
  return change;
}

}  // namespace driftwarden
