// SPDX-License-Identifier: MIT
#include "record/laboratory_result.hpp"

#include <cmath>

namespace driftwarden {

double LaboratoryResult::standard_uncertainty() const {
  if (is_missing(found)) return missing;  // stated of what was found, and not of a limit
  const double factor = is_missing(coverage_factor) ? usual_coverage_factor : coverage_factor;
  return (is_relative ? expanded * std::abs(found) : expanded) / factor;
}

}  // namespace driftwarden
