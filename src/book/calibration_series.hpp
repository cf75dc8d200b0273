// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "book/xml_tree.hpp"
#include "quantity/units.hpp"

namespace driftwarden {

// What a quantity of a digital calibration certificate holds: figures in the inside unit, one or a list of them.
struct CalibrationSeries {
  std::uint32_t line = 0;
  Dimension dimension = Dimension::count;
  std::vector<double> figures;
  std::vector<double> half_steps;  // half a step of the last digit that is written
  std::vector<double> expanded;    // U of each; empty where none is stated
  std::vector<double> coverage_factors;

  std::size_t size() const { return figures.size(); }
};

// A series of a quantity; `is_difference`: an error, whose degrees are kelvins. A list of one unit, or one uncertainty,
// serves all. Of several units for the same (hybrid) the first that is understood counts. Faults: dcc/structure,
// dcc/unit, dcc/number.
Result<CalibrationSeries> calibration_series(const XmlElement& quantity, bool is_difference, const std::string& file);

}  // namespace driftwarden
