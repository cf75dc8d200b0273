// SPDX-License-Identifier: MIT
#include "quantity/dsi_unit.hpp"

#include <gtest/gtest.h>

namespace driftwarden::dsi_unit_test {
namespace {

// derived: of the definitions litre = dm³, minute = 60 s, hour = 3600 s, bar = 100 kPa and the decimal prefixes.

double inside(double written, const std::string& unit, Dimension dimension) {
  const std::optional<Unit> known = dsi_unit(unit);
  if (!known || known->dimension != dimension) return -1;
  return known->to_inside(written);
}

TEST(DsiUnit, OfFlowIsVolumeByTimeHoweverItIsWritten) {
  EXPECT_EQ(inside(1.9, "\\litre\\per\\minute", Dimension::flow), 1.9);
  EXPECT_EQ(inside(1900, "\\milli\\litre\\per\\minute", Dimension::flow), 1.9);
  EXPECT_EQ(inside(1900, "\\milli\\litre\\minute\\tothe{-1}", Dimension::flow), 1.9);
  EXPECT_EQ(inside(1.9, "\\deci\\metre\\tothe{3}\\per\\minute", Dimension::flow), 1.9);
  EXPECT_EQ(inside(114, "\\litre\\per\\hour", Dimension::flow), 1.9);
  EXPECT_DOUBLE_EQ(inside(0.114, "\\metre\\tothe{3}\\per\\hour", Dimension::flow), 1.9);
  EXPECT_EQ(inside(1900, "\\centi\\metre\\tothe{3}\\per\\minute", Dimension::flow), 1.9);
  EXPECT_EQ(inside(2, "\\metre\\tothe{3}\\second\\tothe{-1}", Dimension::flow), 120000);
}

TEST(DsiUnit, OfPressureAndTemperature) {
  EXPECT_EQ(inside(84.23, "\\kilo\\pascal", Dimension::pressure), 84.23);
  EXPECT_EQ(inside(842.5, "\\hecto\\pascal", Dimension::pressure), 84.25);
  EXPECT_EQ(inside(842.5, "\\milli\\bar", Dimension::pressure), 84.25);
  EXPECT_EQ(inside(2, "\\newton\\per\\metre\\tothe{2}", Dimension::pressure), 0.002);
  EXPECT_EQ(inside(2, "\\kilogram\\per\\metre\\per\\second\\tothe{2}", Dimension::pressure), 0.002);
  EXPECT_EQ(inside(760, "\\mmHg", Dimension::pressure), 101.325);
  EXPECT_EQ(inside(20, "\\degreecelsius", Dimension::temperature), 293.15);
  EXPECT_EQ(inside(20, "\\kelvin", Dimension::temperature), 20);
  EXPECT_EQ(inside(5, "\\milli\\kelvin", Dimension::temperature), 0.005);
  EXPECT_EQ(inside(50, "\\percent", Dimension::ratio), 0.5);
  EXPECT_EQ(inside(0.5, "\\one", Dimension::ratio), 0.5);
}

TEST(DsiUnit, OfAnythingElseIsNotUnderstood) {
  for (const char* text :
       {"", "L/min", "litre", "\\", "\\litre", "\\litre\\per", "\\per\\per\\litre", "\\volt", "\\kilo",
        "\\kilogram\\per\\hour", "\\litre\\per\\minute\\tothe{0}", "\\litre\\per\\minute\\tothe{0.5}",
        "\\litre\\per\\minute\\tothe{1", "\\litre\\per\\minute\\tothe{99}", "\\litre \\per\\minute",
        "\\degreecelsius\\per\\minute", "\\tothe{2}", "\\giga\\metre\\tothe{9}\\per\\second"})
    EXPECT_FALSE(dsi_unit(text)) << text;
}

TEST(DsiUnit, OfADifferenceHasNoOrigin) {
  EXPECT_EQ(as_difference(*dsi_unit("\\degreecelsius")).to_inside(0.5), 0.5);
  EXPECT_EQ(as_difference(*dsi_unit("\\degreecelsius")).dimension, Dimension::temperature_difference);
  EXPECT_EQ(as_difference(*dsi_unit("\\hecto\\pascal")).to_inside(1), 0.1);
}

}  // namespace
}  // namespace driftwarden::dsi_unit_test
