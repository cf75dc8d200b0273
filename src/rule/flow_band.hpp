// SPDX-License-Identifier: MIT
#pragma once

#include <limits>
#include <optional>

#include "rule/rule.hpp"

namespace driftwarden {

// Between which flows a rule is kept, L/min; an end that is not there is infinite.
struct FlowBand {
  double low_l_min = -std::numeric_limits<double>::infinity();
  double high_l_min = std::numeric_limits<double>::infinity();
  bool includes_low = true;
  bool includes_high = true;

  // Whether a flow keeps the rule; one that is within on_the_limit of an end is on it.
  bool holds(double flow_l_min) const;
};

// The flows that keep a rule about a flow, or about how far it is from the nominal one.
//
//   of a flow:                    low ≤ Q ≤ high
//   of a relative deviation:      Q_nom · (1 + low) ≤ Q ≤ Q_nom · (1 + high)
//   of a deviation in L/min:      Q_nom + low ≤ Q ≤ Q_nom + high
//   either of two will do:        the wider
//
//   Q, Q_nom   flow and nominal flow, L/min      low, high   the rule's limit, ratio or L/min
//   Source   the definition of the deviation, (Q − Q_nom) / Q_nom, solved for the flow
//   Valid    a rule about a flow, or about a deviation from the nominal one, which is above zero; else nothing
//   Example  within 5 % of 2.0 L/min  ->  1.9 to 2.1 L/min
std::optional<FlowBand> flow_band(const Rule& rule, double nominal_l_min);

}  // namespace driftwarden
