// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "history/fleet_risk.hpp"
#include "report/paint.hpp"

namespace driftwarden {

struct ToldRisk {
  const Screening& screening;
  const FleetRisk& risk;
  std::string_view version;
  Day as_of = no_day;
};

// `risk` as a table of at most 80 columns for people: of each rule what it rests on, what a year brings as it is and
// with what is tried; last how it was reckoned.
std::string risk_table(const ToldRisk& told, Paint paint);

// As one JSON object (docs/risk.schema.json). Figures in the unit given, samples a year in full.
std::string risk_json(const ToldRisk& told);

}  // namespace driftwarden
