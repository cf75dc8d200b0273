// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string_view>

#include "quantity/units.hpp"

namespace driftwarden {

// Reads a unit as D-SI, the format of digital calibration certificates, writes it: "\litre\per\minute",
// "\milli\litre\minute\tothe{-1}", "\metre\tothe{3}\per\hour", "\degreecelsius", "\hecto\pascal", "\percent". Units of
// flow (volume by time), temperature, pressure and ratio are understood, whatever they are put together from. A
// temperature is absolute; see as_difference. Empty: anything else, also a mass flow.
std::optional<Unit> dsi_unit(std::string_view written);

// The same unit for a difference or an uncertainty of figures: °C as K.
Unit as_difference(const Unit& unit);

}  // namespace driftwarden
