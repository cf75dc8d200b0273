// SPDX-License-Identifier: MIT
#include "assessment/pump_conditions.hpp"

#include <cmath>

#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

// Steps from which a remark is worth a reader's time: each changes an uncompensated flow by about 1 %. This project's
// choice.
constexpr double few_kelvin = 5;
constexpr double little_pressure = 0.02;

double known_or(double figure, double otherwise) { return is_missing(figure) ? otherwise : figure; }

bool is_beyond(double size, double limit) { return side_of_limit(std::abs(size), limit) == Side::above; }

}  // namespace

double uncompensated_flow(double temperature_ratio, double pressure_ratio) {
  return std::sqrt(temperature_ratio / pressure_ratio);
}

std::optional<bool> compensates(const Book& book, Row pump) {
  if (pump != no_row && book.instruments[pump].compensates) return book.instruments[pump].compensates;
  return book.settings.pumps_compensate;
}

std::optional<PumpConditions> far_from_its_check(const AssessmentBasis& basis, const SampleAssessment& figures) {
  const double own_k = field(basis.book.samples.temperature_k, figures.sample);
  const double own_kpa = field(basis.book.samples.pressure_kpa, figures.sample);
  std::optional<PumpConditions> farthest;
  for (const ReadingSet* set : {figures.pre_set(), figures.post_set()}) {
    if (set == nullptr) continue;
    const double warmer_k = known_or(own_k - set->temperature_k, 0);
    const double pressure_ratio = set->has_altitude_pressure ? 1 : known_or(own_kpa / set->pressure_kpa, 1);
    if (!is_beyond(warmer_k, few_kelvin) && !is_beyond(pressure_ratio - 1, little_pressure)) continue;
    const double change = uncompensated_flow(known_or(own_k / set->temperature_k, 1), pressure_ratio) - 1;
    if (farthest && std::abs(change) <= std::abs(farthest->flow_change)) continue;
    farthest = {set, warmer_k, pressure_ratio - 1, change};
  }
  return farthest;
}

}  // namespace driftwarden
