// SPDX-License-Identifier: MIT
#pragma once

#include "driftwarden/assessment/sample_assessment.hpp"

namespace driftwarden {

// What a set's certificate tells of its relative error at the set's mean indication.
struct CertificateUncertainty {
  double error = 0;                         // e, ratio
  double standard = missing;                // U / k, relative to the reference flow, interpolated between the points
  double interpolation_half_width = 0;      // how far the error curve may bow between two points, ratio
  const CertificatePoint* below = nullptr;  // the point from which it may bow
};

// The certificate's coverage factor counts as 2 where it gives none (the usual one, and said so in the working).
CertificateUncertainty certificate_uncertainty(const AssessmentBasis& basis, const ReadingSet& set);

}  // namespace driftwarden
