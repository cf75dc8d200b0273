// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/sample_assessment.hpp"

namespace driftwarden {

// What a set's certificate tells of its relative error at the set's mean indication.
struct CertificateUncertainty {
  double error = 0;                         // e, ratio
  double standard = missing;                // U / k, relative to the reference flow, interpolated between the points
  double interpolation_half_width = 0;      // how far the error curve may bow between two points, ratio
  const CertificatePoint* below = nullptr;  // the point from which it may bow
};

// Whether the error of a field set bows with that of an end: between the same points of one certificate.
inline bool bow_together(const CertificateUncertainty& end, const CertificateUncertainty& field) {
  return end.interpolation_half_width > 0 && end.below == field.below;
}

// Of a set over midnight into the first day of a new certificate: of the one that is known worse.
// The certificate's coverage factor counts as 2 where it gives none (the usual one, and said so in the working).
CertificateUncertainty certificate_uncertainty(const AssessmentBasis& basis, const ReadingSet& set);

}  // namespace driftwarden
