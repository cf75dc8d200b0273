// SPDX-License-Identifier: MIT
#include "assessment/weighing.hpp"

#include <cmath>

namespace driftwarden {
namespace {

Weighing::Weight weight_of(const AssessmentBasis& basis, Row balance, Day day, double weight_mg) {
  Weighing::Weight weight;
  weight.day = day;
  if (day == no_day) return weight;
  weight.certificate = basis.calibrators.certificate(balance, day);
  if (weight.certificate < 0) return weight;
  weight.u_mg = uncertainty_of_weight(basis.book.certificates[static_cast<std::size_t>(weight.certificate)], weight_mg);
  return weight;
}

double overdue_min(const AssessmentBasis& basis, const Weighing::Weight& weight) {
  if (weight.certificate < 0) return missing;
  const Day due = basis.calibrators.due(weight.certificate);
  return due == no_day ? missing : minutes_a_day * static_cast<double>(weight.day - due);
}

}  // namespace

double uncertainty_of_difference(double u_after_mg, double u_before_mg) {
  return std::sqrt(u_after_mg * u_after_mg + u_before_mg * u_before_mg);
}

double uncertainty_of_weight(const Certificate& certificate, double weight_mg) {
  const ConditionPoint* below = nullptr;
  const ConditionPoint* above = nullptr;
  for (const ConditionPoint& point : certificate.condition_points) {
    const double at = point.reference;
    if (at <= weight_mg && (below == nullptr || at > below->reference)) below = &point;
    if (at >= weight_mg && (above == nullptr || at < above->reference)) above = &point;
  }
  if (below == nullptr) below = above;
  if (above == nullptr) above = below;
  if (below == nullptr) return missing;
  const double apart = above->reference - below->reference;
  const double share = apart > 0 ? (weight_mg - below->reference) / apart : 0;
  return ((1 - share) * below->expanded_uncertainty.value_or(missing) +
          share * above->expanded_uncertainty.value_or(missing)) /
         certificate.k();
}

Weighing weighing_of(const AssessmentBasis& basis, const LaboratoryResult& result) {
  Weighing weighing;
  if (result.weighed_on == no_row || !result.is_weighed()) return weighing;
  const Day after = result.weighed_after != no_day ? result.weighed_after : result.reported;
  const Day before = result.weighed_before != no_day ? result.weighed_before : after;
  weighing.balance = result.weighed_on;
  weighing.before = weight_of(basis, result.weighed_on, before, result.before_mg);
  weighing.after = weight_of(basis, result.weighed_on, after, result.after_mg);
  return weighing;
}

double overdue_min(const AssessmentBasis& basis, const Weighing& weighing) {
  if (!weighing.has_days()) return missing;
  return std::fmax(overdue_min(basis, weighing.before), overdue_min(basis, weighing.after));
}

}  // namespace driftwarden
