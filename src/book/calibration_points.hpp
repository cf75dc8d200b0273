// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "book/xml_tree.hpp"
#include "quantity/units.hpp"

namespace driftwarden {

// Whether a point was read before or after an adjustment, where the document says so.
enum class AdjustmentState : std::uint8_t { unsaid, before, after };

// A point of a digital calibration certificate, in the inside unit.
struct DocumentPoint {
  std::uint32_t line = 0;
  AdjustmentState state = AdjustmentState::unsaid;
  double nominal = 0;
  double reference = 0;
  double indicated = 0;
  std::optional<double> expanded;
};

struct DocumentPoints {
  std::vector<DocumentPoint> points;
  std::optional<double> coverage_factor;
  std::optional<double> temperature_k;  // at which the points were read
  std::optional<double> pressure_kpa;
  std::set<std::string> understood;  // by which refTypes
  std::set<const XmlElement*> used;  // quantities
};

// Which points are looked for.
struct PointsWanted {
  Dimension dimension = Dimension::flow;
  std::string item;  // only results that refer to this id; "": all
  const std::string& file;
};

// The points of the results: of each list (or the quantities beside each other) that has a reference and an indication,
// or one of them and the error. Lists of quantities of another kind are left out. Where an error is given, too, it has
// to be the indication less the reference, within half a step of the last digits that are written. Faults: those of
// calibration_series, dcc/structure, dcc/wrong-error, dcc/no-points, dcc/coverage-factors.
Result<DocumentPoints> calibration_points(const XmlElement& results, const PointsWanted& wanted);

}  // namespace driftwarden
