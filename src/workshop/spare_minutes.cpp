// SPDX-License-Identifier: MIT
#include "workshop/spare_minutes.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

constexpr int most_trials = 8;

// A volume that was rehearsed, L, and what is left of it without its uncertainty.
struct Drawn {
  double volume_l = missing;
  double certain_l = missing;
};

// Of the volume that an end is about: the one that is drawn, or that at reference conditions.
Drawn drawn(const SampleResult& result, const VolumeEnd& end) {
  const bool is_reference = !is_missing(end.reference_l);
  const BudgetFigure figure = is_reference ? BudgetFigure::volume_reference : BudgetFigure::volume;
  const double volume = is_reference ? result.figures->measured_volume_reference_l : result.figures->measured_volume_l;
  return {volume, volume - result.budget.about(figure).expanded};
}

bool is_enough(double volume_l, double least_l, const VolumeEnd& end) {
  const Side side = side_of_limit(volume_l, least_l);
  return side == Side::above || (side == Side::on && end.includes_it);
}

}  // namespace

double spare_minutes(const OpenedBook& opened, RehearsalAsked asked, const VolumeAhead& volume) {
  const VolumeEnd* end = volume.least_volume();
  if (end == nullptr || is_missing(end->minutes)) return missing;
  const double least_l = is_missing(end->reference_l) ? end->volume_l : end->reference_l;
  asked.minutes = std::max(1.0, end->whole_minutes());
  for (int trial = 0; trial < most_trials; ++trial) {
    const auto rehearsal = Rehearsal::of(opened, asked);
    if (!rehearsal) return missing;
    const Drawn made = drawn((*rehearsal)->result(), *end);
    if (is_missing(made.certain_l)) return missing;
    if (is_enough(made.certain_l, least_l, *end)) return std::max(asked.minutes, volume.least_end()->whole_minutes());
    const double lacking = (least_l - made.certain_l) * asked.minutes / made.volume_l;
    asked.minutes = std::max(asked.minutes + 1, std::ceil(asked.minutes + lacking));
  }
  return missing;
}

}  // namespace driftwarden
