// SPDX-License-Identifier: MIT
#include "correction/certificate_error.hpp"

#include <algorithm>
#include <limits>
#include <optional>

#include "quantity/limit.hpp"
#include "record/sample.hpp"

namespace driftwarden {

namespace {

// What was shown at a point, and the true flow then.
struct Shown {
  std::optional<double> indication;
  double reference = 0;
};
using ShownAt = Shown (*)(const CertificatePoint&);

Shown as_found(const CertificatePoint& point) { return {point.as_found_l_min, point.found_reference_l_min()}; }
Shown in_use(const CertificatePoint& point) { return {point.in_use_l_min(), point.reference_in_use_l_min()}; }

std::vector<ErrorPoint> errors_of(const Certificate& certificate, ShownAt shown_at) {
  std::vector<ErrorPoint> errors;
  errors.reserve(certificate.points.size());
  for (const CertificatePoint& point : certificate.points) {
    const auto [indication, reference] = shown_at(point);
    if (!indication || !(reference > 0)) continue;
    errors.push_back({*indication, (*indication - reference) / reference});
  }
  return errors;
}

// The mean error of points that all have one indication.
ErrorPoint mean_of(std::span<const ErrorPoint> same) {
  double sum = 0;
  for (const ErrorPoint& point : same) sum += point.error;
  return {same.front().indication_l_min, sum / static_cast<double>(same.size())};
}

std::vector<ErrorPoint> one_an_indication(std::vector<ErrorPoint> points) {
  std::stable_sort(points.begin(), points.end(),
                   [](const ErrorPoint& a, const ErrorPoint& b) { return a.indication_l_min < b.indication_l_min; });
  std::vector<ErrorPoint> curve;
  for (auto first = points.begin(); first != points.end();) {
    const auto next = std::find_if(
        first, points.end(), [&](const ErrorPoint& point) { return point.indication_l_min > first->indication_l_min; });
    curve.push_back(mean_of({&*first, static_cast<std::size_t>(next - first)}));
    first = next;
  }
  return curve;
}

}  // namespace

std::vector<ErrorPoint> error_curve(const Certificate& certificate) {
  return one_an_indication(errors_of(certificate, in_use));
}

double standard_uncertainty_l_min(const Certificate& certificate, const CertificatePoint& point) {
  return point.expanded_uncertainty_l_min.value_or(std::numeric_limits<double>::quiet_NaN()) / certificate.k();
}

std::vector<ErrorPoint> as_found_curve(const Certificate& certificate) {
  return one_an_indication(errors_of(certificate, as_found));
}

namespace {

// The slope of the line up to a point of the curve; before the first and behind the last point it is flat.
double slope_up_to(std::span<const ErrorPoint> curve, std::size_t point) {
  if (point == 0 || point >= curve.size()) return 0;
  return (curve[point].error - curve[point - 1].error) /
         (curve[point].indication_l_min - curve[point - 1].indication_l_min);
}

// A mean of readings is on a point also where its last digit is not.
double slope_at(std::span<const ErrorPoint> curve, double indication_l_min) {
  if (is_missing(indication_l_min)) return 0;
  const auto side_of = [&](std::size_t point) {
    return side_of_limit(indication_l_min, curve[point].indication_l_min);
  };
  std::size_t above = 0;
  while (above < curve.size() && side_of(above) == Side::above) ++above;
  const bool is_on_a_point = above < curve.size() && side_of(above) == Side::on;
  const double below = slope_up_to(curve, above);
  return is_on_a_point ? (below + slope_up_to(curve, above + 1)) / 2 : below;
}

}  // namespace

double step_through(std::span<const ErrorPoint> curve, double indication_l_min) {
  return 1 - indication_l_min * slope_at(curve, indication_l_min) / (1 + error_at(curve, indication_l_min).error);
}

ErrorAt error_at(std::span<const ErrorPoint> curve, double indication_l_min) {
  if (curve.empty()) return {};
  if (indication_l_min < curve.front().indication_l_min) return {curve.front().error, true};
  if (indication_l_min > curve.back().indication_l_min) return {curve.back().error, true};
  const auto above = std::find_if(curve.begin(), curve.end(),
                                  [&](const ErrorPoint& point) { return point.indication_l_min >= indication_l_min; });
  if (above == curve.end()) return {};  // the indication is missing
  if (above->indication_l_min == indication_l_min) return {above->error, false};
  const ErrorPoint& below = *(above - 1);
  const double share = (indication_l_min - below.indication_l_min) / (above->indication_l_min - below.indication_l_min);
  return {below.error + (above->error - below.error) * share, false};
}

}  // namespace driftwarden
