// SPDX-License-Identifier: MIT
#include "quantity/quantity.hpp"

#include <gtest/gtest.h>

#include <concepts>
#include <type_traits>

namespace driftwarden::quantity_test {
namespace {

// input: conditions.

template <class A, class B>
concept can_be_added = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept can_be_subtracted = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept can_be_compared = requires(A a, B b) {
  a < b;
}
|| requires(A a, B b) { a == b; };
template <class A, class B>
concept can_be_divided = requires(A a, B b) {
  a / b;
};
template <class A, class B>
concept mix = can_be_added<A, B> || can_be_subtracted<A, B> || can_be_compared<A, B> || can_be_divided<A, B> ||
    std::convertible_to<A, B> || std::convertible_to<B, A>;

// One kind with itself: what must compile.
static_assert(can_be_added<Pressure, Pressure> && can_be_subtracted<Pressure, Pressure>);
static_assert(can_be_compared<Pressure, Pressure> && can_be_divided<Pressure, Pressure>);
static_assert(can_be_compared<Temperature, Temperature> && can_be_divided<Temperature, Temperature>);
static_assert(std::same_as<decltype(Pressure() / Pressure()), double>);

// Two kinds: what must not.
static_assert(!mix<Pressure, RelativeHumidity>);
static_assert(!mix<Pressure, Temperature>);

// Two temperatures have no sum.
static_assert(!can_be_added<Temperature, Temperature>);

// A bare number becomes a quantity only where that is written down, and never by itself the other way.
static_assert(!std::convertible_to<double, Pressure> && std::constructible_from<Pressure, double>);
static_assert(!std::convertible_to<Pressure, double>);
static_assert(!std::convertible_to<double, Temperature> && std::constructible_from<Temperature, double>);

// Kinds cost nothing.
static_assert(sizeof(Pressure) == sizeof(double) && std::is_trivially_copyable_v<Pressure>);

TEST(Quantity, IsAddedSubtractedAndScaled) {
  const Pressure pressure(2.0);
  EXPECT_EQ(pressure + Pressure(0.5), Pressure(2.5));
  EXPECT_EQ(pressure - Pressure(0.5), Pressure(1.5));
  EXPECT_EQ(pressure * 3.0, Pressure(6.0));
  EXPECT_EQ(3.0 * pressure, Pressure(6.0));
  EXPECT_EQ(pressure / 4.0, Pressure(0.5));
  EXPECT_DOUBLE_EQ(Pressure(1.9) / pressure, 0.95);
  EXPECT_LT(Pressure(1.9), pressure);
}

// 25 °C is 298.15 K, 0 °C is 273.15 K: 13th CGPM 1967, resolution 4; 40 CFR 50 App. J §11.1 rounds to 298 K.
TEST(Temperature, IsKelvinInside) {
  EXPECT_EQ(celsius(25).kelvin, 298.15);
  EXPECT_EQ(celsius(0).kelvin, 273.15);
  EXPECT_DOUBLE_EQ(in_celsius(Temperature(298.15)), 25.0);
}

TEST(Temperature, HasRatios) { EXPECT_DOUBLE_EQ(Temperature(300) / Temperature(200), 1.5); }

TEST(Conditions, AreEqualWhereBothAre) {
  const Conditions reference{celsius(25), Pressure(101.325)};
  EXPECT_EQ(reference, (Conditions{celsius(25), Pressure(101.325)}));
  EXPECT_NE(reference, (Conditions{celsius(20), Pressure(101.325)}));
  EXPECT_NE(reference, (Conditions{celsius(25), Pressure(101.3)}));
}

}  // namespace
}  // namespace driftwarden::quantity_test
