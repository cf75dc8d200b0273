// SPDX-License-Identifier: MIT
#include <array>

#include "assessment/budget.hpp"

namespace driftwarden {

std::string_view to_text(BudgetSource source) {
  constexpr std::array<std::string_view, static_cast<std::size_t>(BudgetSource::count_)> words{
      "repeatability, pre",
      "repeatability, post",
      "repeatability, pre, pooled",
      "repeatability, post, pooled",
      "certificate, pre and post",
      "certificate, pre",
      "certificate, post",
      "between certificate points, pre and post",
      "between certificate points, pre",
      "between certificate points, post",
      "calibrator since its certificate",
      "calibrator since its certificate, pre",
      "calibrator since its certificate, post",
      "resolution, pre",
      "resolution, post",
      "flow between the checks",
      "field sets off the mean of pre and post",
      "repeatability, field",
      "repeatability, field, pooled",
      "certificate, field",
      "between certificate points, field",
      "calibrator since its certificate, field",
      "resolution, field",
      "when the pauses were",
      "rotameter left uncorrected",
      "humidity of the bubble's gas",
      "temperature at the readings",
      "pressure at the readings",
      "temperature while sampling",
      "pressure while sampling",
      "pressure by altitude",
      "start time",
      "stop time",
  };
  return words[static_cast<std::size_t>(source)];
}

std::string_view to_text(Distribution distribution) {
  constexpr std::array<std::string_view, 4> words{"t", "normal", "rectangular", "difference"};
  return words[static_cast<std::size_t>(distribution)];
}

std::string_view unit_of(BudgetSource source) {
  switch (source) {
    case BudgetSource::pre_repeatability:
    case BudgetSource::post_repeatability:
    case BudgetSource::pre_pooled_repeatability:
    case BudgetSource::post_pooled_repeatability:
    case BudgetSource::pre_resolution:
    case BudgetSource::post_resolution:
    case BudgetSource::flow_between:
    case BudgetSource::field_difference:
    case BudgetSource::field_repeatability:
    case BudgetSource::field_pooled_repeatability:
    case BudgetSource::field_certificate:
    case BudgetSource::field_interpolation:
    case BudgetSource::field_calibrator_drift:
    case BudgetSource::field_resolution:
    case BudgetSource::pauses:
    case BudgetSource::rotameter_as_read:
      return "L/min";
    case BudgetSource::certificate:
    case BudgetSource::pre_certificate:
    case BudgetSource::post_certificate:
    case BudgetSource::interpolation:
    case BudgetSource::pre_interpolation:
    case BudgetSource::post_interpolation:
    case BudgetSource::calibrator_drift:
    case BudgetSource::pre_calibrator_drift:
    case BudgetSource::post_calibrator_drift:
    case BudgetSource::bubble_humidity:
      return "1";
    case BudgetSource::reading_temperature:
    case BudgetSource::sampling_temperature:
      return "K";
    case BudgetSource::reading_pressure:
    case BudgetSource::sampling_pressure:
    case BudgetSource::altitude_pressure:
      return "kPa";
    case BudgetSource::start_time:
    case BudgetSource::stop_time:
      return "min";
    case BudgetSource::count_:
      break;
  }
  return "1";
}

std::string_view unit_of(BudgetFigure figure) {
  constexpr std::array<std::string_view, budget_figures + 1> units{"1", "L/min", "L", "L", ""};
  return units[static_cast<std::size_t>(figure)];
}

}  // namespace driftwarden
