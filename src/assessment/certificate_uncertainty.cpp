// SPDX-License-Identifier: MIT
#include "assessment/certificate_uncertainty.hpp"

#include <algorithm>
#include <cmath>

namespace driftwarden {
namespace {

double indication_of(const CertificatePoint& point) { return point.in_use_l_min().value_or(missing); }

double relative_uncertainty(const Certificate& certificate, const CertificatePoint& point) {
  return standard_uncertainty_l_min(certificate, point) / point.reference_l_min;
}

// The points next below and next above an indication; both the same outside the points or on one.
struct Neighbours {
  const CertificatePoint* below = nullptr;
  const CertificatePoint* above = nullptr;
};

Neighbours neighbours(const Certificate& certificate, double indication) {
  Neighbours found;
  for (const CertificatePoint& point : certificate.points) {
    const double at = indication_of(point);
    if (is_missing(at)) continue;
    if (at <= indication && (found.below == nullptr || at > indication_of(*found.below))) found.below = &point;
    if (at >= indication && (found.above == nullptr || at < indication_of(*found.above))) found.above = &point;
  }
  if (found.below == nullptr) found.below = found.above;
  if (found.above == nullptr) found.above = found.below;
  return found;
}

CertificateUncertainty by_certificate(const AssessmentBasis& basis, const ReadingSet& set, std::int32_t place) {
  CertificateUncertainty result;
  if (place < 0) return result;
  const Certificate& certificate = basis.book.certificates[static_cast<std::size_t>(place)];
  const Neighbours next = neighbours(certificate, set.indicated_l_min);
  if (next.below == nullptr) return result;
  result.below = next.below;
  result.error = error_at(basis.calibrators.curve(place), set.indicated_l_min).error;
  const double apart = indication_of(*next.above) - indication_of(*next.below);
  const double share = apart > 0 ? (set.indicated_l_min - indication_of(*next.below)) / apart : 0;
  result.standard = (1 - share) * relative_uncertainty(certificate, *next.below) +
                    share * relative_uncertainty(certificate, *next.above);
  // A curve through two points may bow between them, most in the middle; half the points' difference is allowed there.
  const double error_below = indication_of(*next.below) / next.below->reference_in_use_l_min();
  const double error_above = indication_of(*next.above) / next.above->reference_in_use_l_min();
  result.interpolation_half_width = 4 * share * (1 - share) * std::abs(error_above - error_below) / 2;
  return result;
}

}  // namespace

CertificateUncertainty certificate_uncertainty(const AssessmentBasis& basis, const ReadingSet& set) {
  const CertificateUncertainty last = by_certificate(basis, set, set.certificate);
  if (!set.earlier_certificate) return last;
  const CertificateUncertainty earlier = by_certificate(basis, set, *set.earlier_certificate);
  return is_missing(earlier.standard) || earlier.standard > last.standard ? earlier : last;
}

}  // namespace driftwarden
