// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/heed.hpp"
#include "plot/calibrator_marks.hpp"
#include "plot/panel.hpp"

namespace driftwarden {

// The local clock's reading of a point, in days since 1970.
double axis_day(const Series& series, Moment at, const TimeZone& zone);

// What a rule's signal is called beside its mark: "8 on a side", "beyond".
std::string short_name(const std::string& rule);

// Marks and lines grow smaller as points grow many.
double crowding(std::size_t points);

// What all panels of a picture have in common.
struct ChartLook {
  const TimeZone& zone;
  const Theme& theme;
  const CalibratorMarks& calibrators;
  SignalLoad load{};  // of the page that asks; of none: as lax as any page asks
};

// The series itself: points with their uncertainty, control limits of each phase, tolerance, trend and forecast,
// signals.
Panel main_panel(const SeriesHistory& history, const ChartLook& look);

// One of its other charts, all phases of it.
Panel chart_panel(const SeriesHistory& history, ChartKind kind, const ChartLook& look);

// The axes of a thumbnail.
struct Tile {
  Panel::Range x;
  Panel::Range y;
};

// The axes on which several series of one unit are compared: all their days, all their tolerances, and their points up
// to three quarters of the tolerance's width beyond it, so that one that ran away flattens no other.
Tile common_scale(const std::vector<const SeriesHistory*>& shown, const TimeZone& zone);

// The series as a thumbnail: points, tolerance and trend. What lies beyond the tolerance is larger and in the colour of
// signals; what lies off the scale stands at its edge as an arrow.
Panel tile_panel(const SeriesHistory& history, const Tile& tile, const ChartLook& look);

}  // namespace driftwarden
