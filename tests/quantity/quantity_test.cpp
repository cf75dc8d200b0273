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
concept can_be_multiplied = requires(A a, B b) {
  a* b;
};

template <class A, class B>
concept mix = can_be_added<A, B> || can_be_subtracted<A, B> || can_be_compared<A, B> || can_be_divided<A, B> ||
    std::convertible_to<A, B> || std::convertible_to<B, A>;

// One kind with itself: what must compile.
static_assert(can_be_added<ActualFlow, ActualFlow> && can_be_subtracted<ActualFlow, ActualFlow>);
static_assert(can_be_compared<ActualFlow, ActualFlow> && can_be_divided<ActualFlow, ActualFlow>);
static_assert(can_be_subtracted<Temperature, Temperature> && can_be_compared<Temperature, Temperature>);
static_assert(std::same_as<decltype(ActualFlow() * Minutes()), ActualVolume>);
static_assert(std::same_as<decltype(Temperature() - Temperature()), TemperatureDifference>);
static_assert(std::same_as<decltype(ActualFlow() / ActualFlow()), double>);

// Two kinds, even of one dimension: what must not.
static_assert(!mix<IndicatedFlow, ActualFlow>);
static_assert(!mix<ActualFlow, ReferenceFlow>);
static_assert(!mix<IndicatedFlow, ReferenceFlow>);
static_assert(!mix<ActualVolume, ReferenceVolume>);
static_assert(!mix<RelativeHumidity, RelativeDifference>);
static_assert(!mix<Temperature, TemperatureDifference>);
static_assert(!mix<Pressure, Temperature>);
static_assert(!can_be_multiplied<ReferenceFlow, Minutes>, "a reference volume comes from a sample's conditions");
static_assert(!can_be_multiplied<IndicatedFlow, Minutes>);

// Two temperatures have no sum.
static_assert(!can_be_added<Temperature, Temperature>);

// A bare number becomes a quantity only where that is written down, and never by itself the other way.
static_assert(!std::convertible_to<double, ActualFlow> && std::constructible_from<ActualFlow, double>);
static_assert(!std::convertible_to<ActualFlow, double>);
static_assert(!std::convertible_to<double, Temperature> && std::constructible_from<Temperature, double>);

// Kinds cost nothing.
static_assert(sizeof(ActualFlow) == sizeof(double) && std::is_trivially_copyable_v<ActualFlow>);

TEST(Quantity, IsAddedSubtractedAndScaled) {
  const ActualFlow flow(2.0);
  EXPECT_EQ(flow + ActualFlow(0.5), ActualFlow(2.5));
  EXPECT_EQ(flow - ActualFlow(0.5), ActualFlow(1.5));
  EXPECT_EQ(flow * 3.0, ActualFlow(6.0));
  EXPECT_EQ(3.0 * flow, ActualFlow(6.0));
  EXPECT_EQ(flow / 4.0, ActualFlow(0.5));
  EXPECT_DOUBLE_EQ(ActualFlow(1.9) / flow, 0.95);
  EXPECT_LT(ActualFlow(1.9), flow);
}

// 480 min at 1.7 L/min is 816 L: OSHA method ID-142 v3.0, worked example.
TEST(Quantity, FlowTimesMinutesIsVolume) { EXPECT_DOUBLE_EQ((ActualFlow(1.7) * Minutes(480)).value, 816.0); }

// 16.67 L/min over 24 h is 24 m³: 40 CFR 50 App. L §3.1; the source prints whole cubic metres.
TEST(Quantity, FlowOverADayIsTheVolumePublished) {
  EXPECT_NEAR((ActualFlow(16.67) * Minutes(1440)).value, 24'000, 500);
}

// 25 °C is 298.15 K, 0 °C is 273.15 K: 13th CGPM 1967, resolution 4; 40 CFR 50 App. J §11.1 rounds to 298 K.
TEST(Temperature, IsKelvinInside) {
  EXPECT_EQ(celsius(25).kelvin, 298.15);
  EXPECT_EQ(celsius(0).kelvin, 273.15);
  EXPECT_DOUBLE_EQ(in_celsius(Temperature(298.15)), 25.0);
}

TEST(Temperature, HasDifferencesAndRatios) {
  EXPECT_EQ(celsius(30) - celsius(20), TemperatureDifference(10));
  EXPECT_DOUBLE_EQ(Temperature(300) / Temperature(200), 1.5);
}

TEST(Conditions, AreEqualWhereBothAre) {
  const Conditions reference{celsius(25), Pressure(101.325)};
  EXPECT_EQ(reference, (Conditions{celsius(25), Pressure(101.325)}));
  EXPECT_NE(reference, (Conditions{celsius(20), Pressure(101.325)}));
  EXPECT_NE(reference, (Conditions{celsius(25), Pressure(101.3)}));
}

}  // namespace
}  // namespace driftwarden::quantity_test
