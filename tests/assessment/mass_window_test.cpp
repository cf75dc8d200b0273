// SPDX-License-Identifier: MIT
#include "assessment/mass_window.hpp"

#include <gtest/gtest.h>

namespace driftwarden::mass_window_test {
namespace {

// printed: NMAM 0600, Issue 3 (15 January 1998), page 1: range 0.1 mg to 2 mg a sample; least 20 L and most 400 L at
// 5 mg/m3; working range 0.5 to 10 mg/m3 for 200 L.
TEST(MassWindow, IsThatOfNmam0600) {
  EXPECT_NEAR(volume_holding(0.1, 5), 20, 1e-12);
  EXPECT_NEAR(volume_holding(2, 5), 400, 1e-12);
  EXPECT_NEAR(volume_holding(0.1, 0.5), 200, 1e-12);
  EXPECT_NEAR(concentration_held(0.1, 200), 0.5, 1e-12);
  EXPECT_NEAR(concentration_held(2, 200), 10, 1e-12);
}

// printed: NMAM 0501, Issue 1 (8 May 2015), page 1: range 0.25 mg to 5 mg; 17 L and 333 L at 15 mg/m3, to whole litres;
// working range 2.5 to 50 mg/m3 for 100 L.
TEST(MassWindow, IsThatOfNmam0501) {
  EXPECT_NEAR(volume_holding(0.25, 15), 17, 0.5);
  EXPECT_NEAR(volume_holding(5, 15), 333, 0.5);
  EXPECT_NEAR(concentration_held(0.25, 100), 2.5, 1e-12);
  EXPECT_NEAR(concentration_held(5, 100), 50, 1e-12);
}

// printed: NMAM 7501, Issue 3 (15 March 2003), page 1: range 0.2 mg to 2 mg; 400 L at 5 mg/m3 for 2 mg; 1 to 10 mg/m3
// for 200 L. NMAM 7601, Issue 3 (15 March 2003), page 1: 0.02 mg and 2.5 mg, 0.04 to 5 mg/m3 for 500 L. NMAM 7603,
// Issue 2 and 3, page 1: 30 micrograms, 300 L at 0.1 mg/m3, and from 0.03 mg/m3 for 1000 L.
TEST(MassWindow, IsThatOfTheSilicaMethods) {
  EXPECT_NEAR(volume_holding(2, 5), 400, 1e-12);
  EXPECT_NEAR(concentration_held(0.2, 200), 1, 1e-12);
  EXPECT_NEAR(concentration_held(2, 200), 10, 1e-12);
  EXPECT_NEAR(concentration_held(0.02, 500), 0.04, 1e-12);
  EXPECT_NEAR(concentration_held(2.5, 500), 5, 1e-12);
  EXPECT_NEAR(volume_holding(0.03, 0.1), 300, 1e-12);
  EXPECT_NEAR(concentration_held(0.03, 1000), 0.03, 1e-12);
}

// derived: the mass is the inverse of the volume that holds it. 0.5 mg/m3 x 200 L / 1000.
TEST(MassWindow, HoldsInAVolumeTheMassThatItWasReckonedFrom) {
  EXPECT_NEAR(mass_held(0.5, 200), 0.1, 1e-15);
  EXPECT_NEAR(mass_held(5, volume_holding(2, 5)), 2, 1e-15);
}

}  // namespace
}  // namespace driftwarden::mass_window_test
