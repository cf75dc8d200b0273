// SPDX-License-Identifier: MIT
#pragma once

#include <compare>

namespace driftwarden {

// A number of one kind. Two kinds never mix, even of one dimension: an actual and a reference flow can't be compared,
// added or passed for each other. Inside, each kind has one unit; other units exist only in units.hpp and the reader.
template <class Kind>
struct Quantity {
  double value = 0;

  constexpr Quantity() = default;
  constexpr explicit Quantity(double v) : value(v) {}

  friend constexpr auto operator<=>(const Quantity&, const Quantity&) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value + b.value); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value - b.value); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(k * a.value); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.value / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value / b.value; }
};

using IndicatedFlow = Quantity<struct IndicatedFlowKind>;      // L/min as the calibrator showed it
using ActualFlow = Quantity<struct ActualFlowKind>;            // L/min at the conditions of the reading
using ReferenceFlow = Quantity<struct ReferenceFlowKind>;      // L/min at reference conditions
using ActualVolume = Quantity<struct ActualVolumeKind>;        // L
using ReferenceVolume = Quantity<struct ReferenceVolumeKind>;  // L at reference conditions
using Minutes = Quantity<struct MinutesKind>;                  // min
using Pressure = Quantity<struct PressureKind>;                // kPa, absolute (station, not reduced to sea level)
using RelativeHumidity = Quantity<struct HumidityKind>;        // ratio, 0 to 1
using RelativeDifference = Quantity<struct RelativeKind>;      // ratio; 0.05 is 5 %
using TemperatureDifference = Quantity<struct TemperatureDifferenceKind>;  // K

// Absolute temperature, kelvin. Not a Quantity: two temperatures have a difference but no sum.
struct Temperature {
  double kelvin = 0;

  constexpr Temperature() = default;
  constexpr explicit Temperature(double k) : kelvin(k) {}

  friend constexpr auto operator<=>(const Temperature&, const Temperature&) = default;
  friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
    return TemperatureDifference(a.kelvin - b.kelvin);
  }
  friend constexpr double operator/(Temperature a, Temperature b) { return a.kelvin / b.kelvin; }
};

constexpr ActualVolume operator*(ActualFlow q, Minutes t) { return ActualVolume(q.value * t.value); }

inline constexpr double zero_celsius_in_kelvin = 273.15;
constexpr Temperature celsius(double t) { return Temperature(t + zero_celsius_in_kelvin); }
constexpr double in_celsius(Temperature t) { return t.kelvin - zero_celsius_in_kelvin; }

// Temperature and absolute pressure of a gas.
struct Conditions {
  Temperature temperature;
  Pressure pressure;

  friend constexpr auto operator<=>(const Conditions&, const Conditions&) = default;
};

// The same as numbers of any type, for formulas that are written over it: kelvin and kPa.
template <class Number>
struct ConditionsIn {
  Number kelvin;
  Number kpa;
};
constexpr ConditionsIn<double> in_numbers(const Conditions& c) { return {c.temperature.kelvin, c.pressure.value}; }

}  // namespace driftwarden
