// SPDX-License-Identifier: MIT
#include "plot/panel.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "quantity/elementary.hpp"

namespace driftwarden {

double tic_step(double span, std::size_t most) {
  const double least = span / static_cast<double>(most);
  const double unit = elementary::pow(10, std::floor(elementary::log10(least)));
  for (const double step : {1.0, 2.0, 5.0}) {
    if (step * unit >= least * (1 - 1e-9)) return step * unit;
  }
  return 10 * unit;
}

Panel::Range range_around(const std::vector<double>& values) {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const double value : values) {
    if (!std::isfinite(value)) continue;
    low = std::min(low, value);
    high = std::max(high, value);
  }
  if (low > high) return {0, 1};
  const double room = high > low ? 0.07 * (high - low) : std::max(std::fabs(high) * 0.05, 1e-3);
  return {low - room, high + room};
}

PictureFormat format_named(std::string_view name) {
  if (name == "png") return PictureFormat::png;
  return name == "pdf" ? PictureFormat::pdf : PictureFormat::svg;
}

std::string_view ending_of(PictureFormat format) {
  switch (format) {
    case PictureFormat::svg:
      return ".svg";
    case PictureFormat::png:
      return ".png";
    case PictureFormat::pdf:
      return ".pdf";
  }
  return "";
}

}  // namespace driftwarden
