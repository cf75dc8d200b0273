// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

// What the sample's flow did to the cut of its sampler, and the cut to the mass: law, aerosols, each figure with its
// formula, and what the model leaves out. Nothing where nobody describes the sampler's curve. No line is longer than
// `width`, where words allow it.
std::string mass_working(const Screening& screening, const SampleResult& result, std::size_t width);

}  // namespace driftwarden
