// SPDX-License-Identifier: MIT
#include "correction/vapour_pressure.hpp"

#include <cmath>

#include "quantity/elementary.hpp"
#include "record/sample.hpp"

namespace driftwarden {

namespace {

constexpr double critical_temperature_k = 647.096;
constexpr double critical_pressure_kpa = 22064;

}  // namespace

// The half powers are written as roots: this runs once for every reading of a soap-film meter.
Pressure saturation_vapour_pressure(Temperature temperature) {
  const double t = temperature.kelvin;
  if (!(t > 0 && t <= critical_temperature_k)) return Pressure(missing);
  const double u = 1 - t / critical_temperature_k;
  const double root = std::sqrt(u);
  const double cube = u * u * u;
  const double sum = -7.85951783 * u + 1.84408259 * u * root - 11.7866497 * cube + 22.6807411 * cube * root -
                     15.9618719 * cube * u + 1.80122502 * cube * cube * u * root;
  return Pressure(critical_pressure_kpa * elementary::exp(critical_temperature_k / t * sum));
}

}  // namespace driftwarden
