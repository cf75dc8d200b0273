// SPDX-License-Identifier: MIT
#include "history/series.hpp"

#include <algorithm>
#include <utility>

#include "book/stamp_text.hpp"
#include "quantity/limit.hpp"

namespace driftwarden {

bool is_beyond(double figure, const Tolerance& tolerance) {
  const bool below = !is_missing(tolerance.lower) && side_of_limit(figure, tolerance.lower) == Side::below;
  return below || (!is_missing(tolerance.upper) && side_of_limit(figure, tolerance.upper) == Side::above);
}

bool SeriesPoint::is_read_like(const SeriesPoint& other) const {
  if (!leans_on_calibrator() && !other.leans_on_calibrator()) return true;
  return calibrator == other.calibrator && calibrator_after == other.calibrator_after &&
         certificate == other.certificate && certificate_after == other.certificate_after;
}

std::size_t Series::counted() const {
  return static_cast<std::size_t>(std::count_if(points.begin(), points.end(),
                                                [](const SeriesPoint& point) { return !is_missing(point.counted()); }));
}

bool has_a_chart(const Series& series) { return series.counted() > 1; }

const SeriesPoint* last_counted(const Series& series) {
  for (auto point = series.points.rbegin(); point != series.points.rend(); ++point) {
    if (!is_missing(point->counted())) return &*point;
  }
  return nullptr;
}

std::string beyond_tolerance_said(const Series& series, const TimeZone& zone) {
  std::size_t count = 0;
  const SeriesPoint* last = nullptr;
  for (const SeriesPoint& point : series.points) {
    if (is_missing(point.counted()) || !is_beyond(point.value, series.tolerance)) continue;
    ++count;
    last = &point;
  }
  if (last == nullptr) return {};
  const std::string when = date_text(day_of(series, *last, zone));
  if (count == 1) return "1 point beyond the tolerance, on " + when;
  return std::to_string(count) + " points beyond the tolerance, the last on " + when;
}

Day day_of(const Series& series, const SeriesPoint& point, const TimeZone& zone) {
  return series.is_by_day ? static_cast<Day>(point.at / seconds_a_day) : local_day(point.at, zone);
}

Series empty_series(std::string name, std::string title, std::string unit, std::string basis) {
  Series series;
  series.name = std::move(name);
  series.title = std::move(title);
  series.unit = std::move(unit);
  series.basis = std::move(basis);
  return series;
}

void cut_into_phases(Series& series, std::vector<PhaseStart> starts) {
  std::stable_sort(starts.begin(), starts.end(), [](const PhaseStart& a, const PhaseStart& b) { return a.at < b.at; });
  series.phases.assign(1, {0, 0, {}});
  auto start = starts.begin();
  for (std::size_t i = 0; i < series.points.size(); ++i) {
    const PhaseStart* passed = nullptr;
    for (; start != starts.end() && start->at <= series.points[i].at; ++start) passed = &*start;
    if (passed != nullptr && i > 0) series.phases.push_back({i, 0, passed->reason});
    ++series.phases.back().count;
  }
}

}  // namespace driftwarden
