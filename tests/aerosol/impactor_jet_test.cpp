// SPDX-License-Identifier: MIT
#include "aerosol/impactor_jet.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace driftwarden::impactor_jet_test {
namespace {

constexpr Jets jet{1, 2.63};
constexpr Jets slots{2, 0.5, 20};

// own input: one round jet of 2.63 mm, Stk50 0.24, computed with SciPy 1.10 by tests/support/computed_aerosols.py.
TEST(ImpactorJet, CutsAtTheStokesNumberOfRoundJets) {
  EXPECT_NEAR(jet_cut_um(jet, 1.8), 4.232375123837115, 1e-13);
  EXPECT_NEAR(jet_cut_um(jet, 1.9), 4.117308956045886, 1e-13);
  EXPECT_NEAR(jet_cut_um(jet, 2.0), 4.010985524604222, 1e-13);
  EXPECT_NEAR(jet_cut_um(jet, 2.1), 3.9123510806066344, 1e-13);
  EXPECT_NEAR(jet_cut_um(jet, 2.2), 3.8205215191283584, 1e-13);
  EXPECT_NEAR(std::log(jet_cut_um(jet, 2.2) / jet_cut_um(jet, 1.8)) / std::log(2.2 / 1.8), -0.51017, 0.5e-5);
}

// own input: two slots of 0.5 mm by 20 mm, Stk50 0.59, computed with SciPy 1.10 by tests/support/computed_aerosols.py.
TEST(ImpactorJet, CutsAtTheStokesNumberOfSlots) {
  EXPECT_NEAR(jet_cut_um(slots, 9), 2.449195140188928, 1e-13);
  EXPECT_NEAR(jet_reynolds(slots, 9), 497.23756906077, 1e-10);
}

TEST(ImpactorJet, CutsAtAStokesNumberOfItsOwn) {
  EXPECT_EQ(jet_cut_um({1, 2.63, 0, 0.24}, 2), jet_cut_um(jet, 2));
  EXPECT_NEAR(jet_cut_um({1, 2.63, 0, 0.96}, 2, {1e-5, 1.2, 0}) / jet_cut_um(jet, 2, {1e-5, 1.2, 0}), 2, 1e-14);
}

// own input: computed with Python 3.11 by tests/support/computed_aerosols.py.
TEST(ImpactorJet, HasAReynoldsNumberOfAThousandAtTwoLitresAMinute) {
  EXPECT_NEAR(jet_reynolds(jet, 2), 1069.881767733, 1e-9);
}

TEST(ImpactorJet, OfManyIsThatOfOneWithItsShareOfTheFlow) {
  EXPECT_DOUBLE_EQ(jet_cut_um({8, 1.1, 0}, 16), jet_cut_um({1, 1.1, 0}, 2));
  EXPECT_DOUBLE_EQ(jet_reynolds({8, 1.1, 0}, 16), jet_reynolds({1, 1.1, 0}, 2));
}

TEST(ImpactorJet, GoesWithTheRootOfTheViscosityWhereNothingSlips) {
  const double thin = jet_cut_um(jet, 2, {1e-5, 1.2, 0});
  EXPECT_NEAR(jet_cut_um(jet, 2, {2e-5, 1.2, 0}) / thin, std::sqrt(2), 1e-14);
  EXPECT_NEAR(jet_reynolds(jet, 2, {2e-5, 1.2, 0}) / jet_reynolds(jet, 2, {1e-5, 0.6, 0}), 1, 1e-14);
}

TEST(ImpactorJet, GoesWithTheFlowAtSmallFlowsToo) {
  EXPECT_NEAR(jet_reynolds(jet, 0.02), jet_reynolds(jet, 2) / 100, 1e-12);
}

TEST(ImpactorJet, HasNoFigureForWhatIsNoJetOrNoFlow) {
  EXPECT_TRUE(std::isnan(jet_cut_um({0, 2.63, 0}, 2)));  // input: no jet
  EXPECT_TRUE(std::isnan(jet_cut_um({1, 0, 0}, 2)));
  EXPECT_TRUE(std::isnan(jet_cut_um({1, 0, 3}, 2)));
  EXPECT_TRUE(std::isnan(jet_cut_um({1, 2.63, -3}, 2)));
  EXPECT_TRUE(std::isnan(jet_cut_um(jet, 0)));
  EXPECT_TRUE(std::isnan(jet_cut_um(Jets{}, 2)));
  EXPECT_TRUE(std::isnan(jet_reynolds({0, 2.63, 0}, 2)));
  EXPECT_TRUE(std::isnan(jet_reynolds({1, -2.63, 0}, 2)));
  EXPECT_TRUE(std::isnan(jet_reynolds({1, 2.63, -3}, 2)));
  EXPECT_TRUE(std::isnan(jet_reynolds(jet, std::nan(""))));
  EXPECT_TRUE(std::isnan(jet_reynolds(jet, 0)));
}

}  // namespace
}  // namespace driftwarden::impactor_jet_test
