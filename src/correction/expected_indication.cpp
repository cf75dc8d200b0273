// SPDX-License-Identifier: MIT
#include "correction/expected_indication.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace driftwarden {
namespace {

// A piece of the error curve, e = at_zero + slope · Q_ind, between two indications.
struct CurvePiece {
  double at_zero = 0;
  double slope = 0;
  double from_l_min = -std::numeric_limits<double>::infinity();
  double to_l_min = std::numeric_limits<double>::infinity();
};

// Two figures that are apart by rounding alone: an indication on a point belongs to both pieces.
bool are_the_same(double a, double b) { return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b)); }

// The indication on the piece that is corrected to the flow; NaN: there is none.
double on_piece(const CurvePiece& piece, double without_error_l_min) {
  const double indication = without_error_l_min * (1 + piece.at_zero) / (1 - piece.slope * without_error_l_min);
  const bool is_on_it = (indication >= piece.from_l_min || are_the_same(indication, piece.from_l_min)) &&
                        (indication <= piece.to_l_min || are_the_same(indication, piece.to_l_min));
  return is_on_it ? indication : missing;
}

std::vector<CurvePiece> pieces_of(std::span<const ErrorPoint> curve) {
  if (curve.empty()) return {CurvePiece{}};
  std::vector<CurvePiece> pieces;
  pieces.push_back({.at_zero = curve.front().error, .to_l_min = curve.front().indication_l_min});
  for (std::size_t i = 1; i < curve.size(); ++i) {
    const ErrorPoint& below = curve[i - 1];
    const ErrorPoint& above = curve[i];
    const double slope = (above.error - below.error) / (above.indication_l_min - below.indication_l_min);
    pieces.push_back(
        {below.error - slope * below.indication_l_min, slope, below.indication_l_min, above.indication_l_min});
  }
  pieces.push_back({.at_zero = curve.back().error, .from_l_min = curve.back().indication_l_min});
  return pieces;
}

}  // namespace

ExpectedIndication expected_indication(double actual_l_min, std::span<const ErrorPoint> curve,
                                       const ReadingFactor& factor) {
  ExpectedIndication expected;
  expected.lack = factor.step.lack;
  if (expected.lack != FactorLack::nothing || !(factor.step.factor > 0)) return expected;
  const double without_error = actual_l_min / factor.step.factor;
  for (const CurvePiece& piece : pieces_of(curve)) {
    const double found = on_piece(piece, without_error);
    if (is_missing(found)) continue;
    if (!is_missing(expected.indicated_l_min) && !are_the_same(found, expected.indicated_l_min)) return {};
    expected.indicated_l_min = found;
  }
  expected.is_outside_certificate = error_at(curve, expected.indicated_l_min).is_outside_the_points;
  return expected;
}

}  // namespace driftwarden
