// SPDX-License-Identifier: MIT
#include "record/instrument.hpp"

#include <gtest/gtest.h>

namespace driftwarden::instrument_test {
namespace {

TEST(Instrument, KindsAreWrittenAsInTheTable) {
  EXPECT_EQ(to_text(InstrumentKind::pump), "pump");
  EXPECT_EQ(to_text(InstrumentKind::calibrator), "calibrator");
  EXPECT_EQ(to_text(InstrumentKind::thermometer), "thermometer");
  EXPECT_EQ(to_text(InstrumentKind::barometer), "barometer");
}

TEST(Instrument, PrinciplesAreWrittenAsInTheTable) {
  EXPECT_EQ(to_text(Principle::volumetric), "volumetric");
  EXPECT_EQ(to_text(Principle::bubble), "bubble");
  EXPECT_EQ(to_text(Principle::rotameter), "rotameter");
  EXPECT_EQ(to_text(Principle::mass), "mass");
  EXPECT_EQ(to_text(Principle::orifice), "orifice");
}

TEST(Instrument, AFloatIsReadAtItsCentreOrTop) {
  EXPECT_EQ(to_text(ReadAt::centre), "centre");
  EXPECT_EQ(to_text(ReadAt::top), "top");
}

TEST(Instrument, WhatIsNotSaidIsWrittenAsAnEmptyCell) {
  EXPECT_EQ(to_text(Principle::none), "");
  EXPECT_EQ(to_text(ReadAt::unknown), "");
}

TEST(Instrument, StartsWithNothingSaid) {
  const Instrument instrument;
  EXPECT_EQ(instrument.in_service, no_day);
  EXPECT_EQ(instrument.out_of_service, no_day);
  EXPECT_EQ(instrument.problem, no_problem);
  EXPECT_FALSE(instrument.interval_d);
  EXPECT_EQ(Certificate{}.instrument, no_row);
}

}  // namespace
}  // namespace driftwarden::instrument_test
