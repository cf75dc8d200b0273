// SPDX-License-Identifier: MIT
#include "rule/flow_band.hpp"

#include <algorithm>

#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

FlowBand around(double nominal_l_min, double low, double high, bool is_absolute) {
  if (is_absolute) return {nominal_l_min + low, nominal_l_min + high};
  return {nominal_l_min * (1 + low), nominal_l_min * (1 + high)};
}

}  // namespace

bool FlowBand::holds(double flow_l_min) const {
  const Side at_low = side_of_limit(flow_l_min, low_l_min);
  const Side at_high = side_of_limit(flow_l_min, high_l_min);
  return (at_low == Side::above || (at_low == Side::on && includes_low)) &&
         (at_high == Side::below || (at_high == Side::on && includes_high));
}

std::optional<FlowBand> flow_band(const Rule& rule, double nominal_l_min) {
  const Measure& measure = measure_of(rule);
  const Limit& limit = rule.limit;
  if (measure.kind != MeasureKind::number) return std::nullopt;
  FlowBand band;
  if (measure.dimension == Dimension::flow) {
    band = {limit.low, limit.high};
  } else if (measure.absolute == Dimension::flow && is_from_nominal(rule) && nominal_l_min > 0) {
    band = around(nominal_l_min, limit.low, limit.high, limit.is_absolute);
    if (has_alternative(limit)) {
      const FlowBand other = around(nominal_l_min, -limit.or_within, limit.or_within, !limit.is_absolute);
      band = {std::min(band.low_l_min, other.low_l_min), std::max(band.high_l_min, other.high_l_min)};
    }
  } else {
    return std::nullopt;
  }
  band.includes_low = band.includes_high = includes_its_ends(limit.form);
  return band;
}

}  // namespace driftwarden
