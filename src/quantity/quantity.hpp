// SPDX-License-Identifier: MIT
#pragma once

#include <compare>

namespace driftwarden {

// A number of one kind. Two kinds never mix: a humidity can't be passed for a pressure, nor a bare number for either.
// Inside, each has one unit; other units exist only in quantity/unit_table and the reader. Conditions have kinds, for
// each comes in several units and stands beside others in calls; flows, volumes and times are bare numbers whose names
// end in their unit (docs/adr/0014).
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

using Pressure = Quantity<struct PressureKind>;          // kPa, absolute (station, not reduced to sea level)
using RelativeHumidity = Quantity<struct HumidityKind>;  // ratio, 0 to 1

// Absolute temperature, kelvin. Not a Quantity: two temperatures have no sum.
struct Temperature {
  double kelvin = 0;

  constexpr Temperature() = default;
  constexpr explicit Temperature(double k) : kelvin(k) {}

  friend constexpr auto operator<=>(const Temperature&, const Temperature&) = default;
  friend constexpr double operator/(Temperature a, Temperature b) { return a.kelvin / b.kelvin; }
};

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
