// SPDX-License-Identifier: MIT
#include "statistics/limit_crossing.hpp"

#include <cmath>

#include "statistics/student_t.hpp"

namespace driftwarden {

namespace {

// The two places, relative to the centre, where the band's edges meet a limit `height` above it. With A > 0 the root's
// content is a sum of two squares' multiples, so it is never negative.
Bounds places_of_edges(const LineFit& line, double height, const Band& band) {
  const double q_squared = band.factor * band.factor;
  const double variance = band.extra_variance + line.centre_variance;
  const double a = line.slope * line.slope - q_squared * line.slope_variance;
  if (!(a > 0) || !(variance >= 0)) return {};
  const double middle = line.slope * height / a;
  const double half = band.factor * std::sqrt(variance * a + line.slope_variance * height * height) / a;
  return {middle - half, middle + half};
}

}  // namespace

Band prediction_band(const LineFit& line, double coverage, double new_results) {
  return {coverage_factor(coverage, line.dof), line.residual_variance_of_one / new_results};
}

Bounds band_at(const LineFit& line, const Band& band, double x) {
  const double from_centre = x - line.centre_x;
  const double variance = line.centre_variance + from_centre * from_centre * line.slope_variance;
  const double half = band.factor * std::sqrt(band.extra_variance + variance);
  return {line.at(x) - half, line.at(x) + half};
}

LimitCrossing limit_crossing(const LineFit& line, double limit, const Band& band) {
  LimitCrossing crossing;
  const double height = limit - line.centre_y;
  if (line.slope != 0) crossing.x = line.centre_x + height / line.slope;
  const Bounds edges = places_of_edges(line, height, band);
  if (std::isnan(edges.lower)) return crossing;
  crossing.is_bounded = true;
  crossing.earliest = line.centre_x + edges.lower;
  crossing.latest = line.centre_x + edges.upper;
  return crossing;
}

}  // namespace driftwarden
