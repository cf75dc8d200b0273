// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include "history/series.hpp"

namespace driftwarden {

// A charted series of values, a day apart from 2026-01-01, in one phase. Invented.
inline Series made_series(const std::vector<double>& values) {
  Series series = empty_series("drift", "Drift per use", "%");
  constexpr Moment first = 20454 * 86400LL;
  for (std::size_t i = 0; i < values.size(); ++i) {
    SeriesPoint point;
    point.at = first + static_cast<Moment>(i) * 86400;
    point.value = values[i];
    point.from = "S" + std::to_string(i + 1);
    series.points.push_back(point);
  }
  cut_into_phases(series, {});
  return series;
}

}  // namespace driftwarden
