// SPDX-License-Identifier: MIT
#include "correction/supposed_errors.hpp"

#include <algorithm>

#include "record/sample.hpp"

namespace driftwarden {
namespace {

// Every indication at which one of two curves has a corner.
std::vector<double> indications_of(std::span<const ErrorPoint> a, std::span<const ErrorPoint> b) {
  std::vector<double> indications;
  for (const ErrorPoint& point : a) indications.push_back(point.indication_l_min);
  for (const ErrorPoint& point : b) indications.push_back(point.indication_l_min);
  std::sort(indications.begin(), indications.end());
  indications.erase(std::unique(indications.begin(), indications.end()), indications.end());
  return indications;
}

}  // namespace

const ErrorCurve* SupposedErrors::curve(Row calibrator, std::int32_t certificate, Day on) const {
  if (calibrator == instrument && instrument != no_row) {
    if (by_day.empty() || on < from || on >= until) return nullptr;
    return by_day.size() == 1 ? &by_day.front() : &by_day[static_cast<std::size_t>(on - from)];
  }
  const auto found = by_certificate.find(certificate);
  return found == by_certificate.end() ? nullptr : &found->second;
}

ErrorCurve error_on_the_way(std::span<const ErrorPoint> left, std::span<const ErrorPoint> found, double share) {
  ErrorCurve curve;
  for (const double indication : indications_of(left, found)) {
    const double was_left = error_at(left, indication).error;
    curve.push_back({indication, was_left + (error_at(found, indication).error - was_left) * share});
  }
  return curve;
}

Certificate with_other_standard(const Certificate& certificate, std::span<const ErrorPoint> stated,
                                std::span<const ErrorPoint> supposed) {
  const auto true_flow = [&](double reference_l_min) {
    const double e_stated = error_at(stated, reference_l_min).error;
    const double e_supposed = error_at(supposed, reference_l_min * (1 + e_stated)).error;
    return e_supposed > -1 ? reference_l_min * (1 + e_stated) / (1 + e_supposed) : missing;
  };
  Certificate shifted = certificate;
  for (CertificatePoint& point : shifted.points) {
    point.reference_l_min = true_flow(point.reference_l_min);
    if (point.reference_as_found_l_min) point.reference_as_found_l_min = true_flow(*point.reference_as_found_l_min);
  }
  return shifted;
}

}  // namespace driftwarden
