// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/instrument_history.hpp"
#include "plot/panel.hpp"

namespace driftwarden {

// The local clock's reading of a point, in days since 1970.
double axis_day(const Series& series, Moment at, const TimeZone& zone);

// What a rule's signal is called beside its mark: "8 on a side", "beyond".
std::string short_name(const std::string& rule);

// Marks and lines grow smaller as points grow many.
double crowding(std::size_t points);

// The series itself: points with their uncertainty, control limits of each phase, tolerance, trend and forecast,
// signals.
Panel main_panel(const SeriesHistory& history, const TimeZone& zone, const Theme& theme);

// One of its other charts, all phases of it.
Panel chart_panel(const SeriesHistory& history, ChartKind kind, const TimeZone& zone, const Theme& theme);

// The series as a thumbnail.
Panel tile_panel(const SeriesHistory& history, const std::string& title, const TimeZone& zone, const Theme& theme);

}  // namespace driftwarden
