// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/mass_change.hpp"
#include "plot/pictures.hpp"

namespace driftwarden {

// What the flow of a sample did to its sampler and the mass, in two pictures: SAMPLE.penetration, the penetration curve
// at the nominal flow and at this one against the convention; SAMPLE.mass-error, the error of the concentration by
// either volume over mass median diameter and spread, with the sample's own aerosols. None where nobody describes the
// sampler's curve, or the sample has no flow that its law covers.
Pictures mass_pictures(const Screening& screening, const SampleAssessment& figures, const Theme& theme,
                       PictureFormat format);

}  // namespace driftwarden
