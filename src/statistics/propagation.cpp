// SPDX-License-Identifier: MIT
#include "statistics/propagation.hpp"

#include <cassert>
#include <cmath>
#include <cstddef>

#include "statistics/student_t.hpp"

namespace driftwarden {

namespace {

constexpr double rounding_share = 1e-14;

}  // namespace

CombinedUncertainty combined_uncertainty(std::span<const UncertaintyContribution> contributions) {
  double variance = 0;
  for (const auto& part : contributions) variance += part.signed_amount() * part.signed_amount();
  return {std::sqrt(variance), effective_degrees_of_freedom(contributions)};
}

CombinedUncertainty combined_uncertainty(std::span<const UncertaintyContribution> contributions,
                                         const CorrelationMatrix& correlations) {
  assert(correlations.size() == contributions.size());
  double variance = 0;
  double squares = 0;
  for (std::size_t i = 0; i < contributions.size(); ++i) {
    double row = 0;
    for (std::size_t j = 0; j < contributions.size(); ++j) {
      row += contributions[j].signed_amount() * correlations.at(i, j);
    }
    variance += contributions[i].signed_amount() * row;
    squares += contributions[i].signed_amount() * contributions[i].signed_amount();
  }
  // Amounts that cancel completely leave a rounding error of either sign.
  const bool is_rounding_error = std::fabs(variance) <= rounding_share * squares;
  if (is_rounding_error) return {0, no_figure};
  return {variance < 0 ? no_figure : std::sqrt(variance), no_figure};
}

double expanded_uncertainty(const CombinedUncertainty& combined, double coverage) {
  return coverage_factor(coverage, whole_degrees_of_freedom(combined.dof)) * combined.u;
}

}  // namespace driftwarden
