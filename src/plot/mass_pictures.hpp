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

// The mass median diameter, µm, at which the error is so much for aerosols of a spread: what is finer is less off. Of
// the error by the actual volume, and of one that does not change its sign. Missing where none between the ends has it.
double mmad_of_error(const Preselector& preselector, double cut_um, double error, double gsd, const Bounds& mmad_um);

}  // namespace driftwarden
