// SPDX-License-Identifier: MIT
#include "statistics/calibration_interval.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "quantity/elementary.hpp"
#include "quantity/limit.hpp"

namespace driftwarden {

namespace {

bool is_within(double error, double limit) { return side_of_limit(error, limit) != Side::above; }

IntervalStep step_for(double error, double permissible_error, const StaircaseDesign& design) {
  if (is_within(error, design.extend_up_to * permissible_error)) return IntervalStep::extend;
  return is_within(error, permissible_error) ? IntervalStep::keep : IntervalStep::reduce;
}

double factor_for(IntervalStep step, const StaircaseDesign& design) {
  if (step == IntervalStep::extend) return design.extend_factor;
  return step == IntervalStep::reduce ? design.reduce_factor : 1;
}

double kept_within(double interval, const StaircaseDesign& design) {
  const double not_too_short = std::max(interval, design.shortest);
  return std::isnan(design.longest) ? not_too_short : std::min(not_too_short, design.longest);
}

}  // namespace

IntervalAdvice staircase(double interval, double error_found, double permissible_error, const StaircaseDesign& design) {
  if (std::isnan(error_found) || !(permissible_error > 0)) return {IntervalStep::keep, no_figure};
  const IntervalStep step = step_for(std::fabs(error_found), permissible_error, design);
  return {step, kept_within(interval * factor_for(step, design), design)};
}

double days_until_used_up(double permitted_hours, double used_hours, double days_so_far) {
  if (used_hours == 0) return std::numeric_limits<double>::infinity();
  return (permitted_hours - used_hours) * days_so_far / used_hours;
}

double e_n(double result, double expanded_uncertainty, double reference, double reference_expanded_uncertainty) {
  return (result - reference) / elementary::hypot(expanded_uncertainty, reference_expanded_uncertainty);
}

}  // namespace driftwarden
