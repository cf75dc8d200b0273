// SPDX-License-Identifier: MIT
#include "correction/vapour_pressure.hpp"

#include <cmath>

#include "quantity/elementary.hpp"
#include "record/sample.hpp"

namespace driftwarden {

namespace {

constexpr double critical_temperature_k = 647.096;
constexpr double critical_pressure_kpa = 22064;
constexpr double goff_triple_point_k = 273.16;

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

Pressure saturation_vapour_pressure_goff(Temperature temperature) {
  const double t = temperature.kelvin / goff_triple_point_k;
  const double exponent = 10.79574 * (1 - 1 / t) - 5.02800 * elementary::log10(t) +
                          1.50475e-4 * (1 - elementary::pow(10, -8.2969 * (t - 1))) +
                          0.42873e-3 * (elementary::pow(10, 4.76955 * (1 - 1 / t)) - 1) - 0.2138602;
  return Pressure(elementary::pow(10, exponent));
}

double mole_fraction_of_water(RelativeHumidity humidity, Pressure saturation, Pressure absolute) {
  return humidity.value * (saturation / absolute);
}

}  // namespace driftwarden
