// SPDX-License-Identifier: MIT
#include "aerosol/cut_law.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "aerosol/slip.hpp"

namespace driftwarden::cut_law_test {
namespace {

CutLaw power(double nominal_um, double nominal_l_min, double exponent) {
  return {nominal_um, nominal_l_min, exponent, 0, {}};
}

struct Row {
  double exponent, flow_l_min, cut_um, change_percent;
};

// own input: 4.0 µm at 2.0 L/min, computed with Python 3.11 by tests/support/computed_aerosols.py.
constexpr Row rows[] = {
    {0.5, 1.9, 4.104, 2.60},  {0.5, 2.1, 3.904, -2.41}, {0.75, 1.9, 4.157, 3.92}, {0.75, 2.1, 3.856, -3.59},
    {1, 1.9, 4.211, 5.26},    {1, 2.1, 3.810, -4.76},   {1, 1.8, 4.444, 11.11},   {1, 2.2, 3.636, -9.09},
    {1.13, 1.9, 4.239, 5.97}, {-0.5, 2.1, 4.099, 2.47},
};

TEST(CutAtFlow, GoesWithAPowerOfTheFlow) {
  for (const Row& row : rows) {
    const double cut = cut_at_flow(power(4, 2, row.exponent), row.flow_l_min);
    EXPECT_NEAR(cut, row.cut_um, 0.5e-3) << row.exponent;
    EXPECT_NEAR(100 * (cut / 4 - 1), row.change_percent, 0.5e-2) << row.exponent;
  }
}

// memory: 6.17 Q^−0.75 for the 10-mm nylon cyclone, from a table of Chan and Lippmann (1977) that was not seen;
// computed with Python 3.11 by tests/support/computed_aerosols.py.
TEST(CutAtFlow, IsThatOfACycloneGivenByItsConstant) {
  EXPECT_NEAR(cut_at_flow(power(6.17, 1, 0.75), 1.7), 4.1442741125, 1e-10);
  EXPECT_NEAR(cut_at_flow(power(6.17, 1, 0.75), 2), 3.6687039498, 1e-10);
}

TEST(CutAtFlow, IsTheNominalCutAtTheNominalFlow) {
  EXPECT_EQ(cut_at_flow(power(4, 2.2, 0.63), 2.2), 4);
  EXPECT_DOUBLE_EQ(cut_at_flow({2.5, 16.7, 0.5, mean_free_path_of_air_um, {}}, 16.7), 2.5);
}

// own input: 2.5 µm at 2.0 L/min, with slip, computed with SciPy 1.10 by tests/support/computed_aerosols.py.
TEST(CutAtFlow, OfAnImpactorFallsAndOfAnElutriatorGrowsWithTheFlow) {
  const auto at = [](double exponent) { return cut_at_flow({2.5, 2, exponent, mean_free_path_of_air_um, {}}, 1.9); };
  EXPECT_NEAR(at(impactor_exponent), 2.5670449929219608, 1e-13);
  EXPECT_NEAR(at(elutriator_exponent), 2.4346543736574926, 1e-13);
}

// own input: n / (1 + s/2) with the slope s of the slip, computed with Python 3.11 by
// tests/support/computed_aerosols.py.
TEST(ExponentAt, IsThatOfTheCutItselfWhereSlipGoesWithIt) {
  const auto at = [](double exponent, double cut_um) {
    return exponent_at({4, 2, exponent, mean_free_path_of_air_um, {}}, cut_um);
  };
  EXPECT_NEAR(at(impactor_exponent, 4), 0.5102199, 1e-7);
  EXPECT_NEAR(at(elutriator_exponent, 2.5), -0.5161537, 1e-7);
}

TEST(ExponentAt, IsTheOneStatedWithoutSlipAlsoWhereNoCutIs) {
  EXPECT_EQ(exponent_at(power(4, 2, 0.75), 4.1), 0.75);
  EXPECT_EQ(exponent_at(power(std::nan(""), 2, 0.75), std::nan("")), 0.75);
}

// own input: by the Stokes number at 50 %, 0.24, of one round jet of 2.63 mm at each flow; computed with SciPy 1.10 by
// tests/support/computed_aerosols.py.
TEST(CutAtFlow, OfAnImpactorIsThatOfItsJets) {
  const CutLaw law{4.010985524604222, 2.0, impactor_exponent, mean_free_path_of_air_um, {}};
  EXPECT_NEAR(cut_at_flow(law, 1.8), 4.232375123837115, 1e-13);
  EXPECT_NEAR(cut_at_flow(law, 1.9), 4.117308956045886, 1e-13);
  EXPECT_NEAR(cut_at_flow(law, 2.1), 3.9123510806066344, 1e-13);
  EXPECT_NEAR(cut_at_flow(law, 2.2), 3.8205215191283584, 1e-13);
}

TEST(CutAtFlow, IsKnownOverItsRangeAndNotBeyond) {
  CutLaw law = power(4, 2, 0.75);
  law.flows_l_min = {1.8, 2.2};
  EXPECT_FALSE(std::isnan(cut_at_flow(law, 1.8)));
  EXPECT_FALSE(std::isnan(cut_at_flow(law, 1.8 * (1 - 1e-15))));
  EXPECT_FALSE(std::isnan(cut_at_flow(law, 2.2 * (1 + 1e-15))));
  EXPECT_FALSE(std::isnan(cut_at_flow(law, 2.2)));
  EXPECT_TRUE(std::isnan(cut_at_flow(law, 1.79)));
  EXPECT_TRUE(std::isnan(cut_at_flow(law, 2.21)));
  law.flows_l_min = {no_figure, 2.2};
  EXPECT_FALSE(std::isnan(cut_at_flow(law, 0.1)));
  EXPECT_TRUE(std::isnan(cut_at_flow(law, 2.21)));
  law.flows_l_min = {1.8, no_figure};
  EXPECT_FALSE(std::isnan(cut_at_flow(law, 20)));
  EXPECT_TRUE(std::isnan(cut_at_flow(law, 1.79)));
}

TEST(HoldsAt, IsFromTheLeastToTheGreatestFlow) {
  CutLaw law;
  EXPECT_TRUE(holds_at(law, 0.1));
  law.flows_l_min = {1.5, 2.5};
  for (const double flow : {1.5, 2.0, 2.5}) EXPECT_TRUE(holds_at(law, flow)) << flow;
  for (const double flow : {0.0, 1.49, 2.51, std::nan("")}) EXPECT_FALSE(holds_at(law, flow)) << flow;
}

TEST(CutAtFlow, IsKnownAtSmallFlowsToo) { EXPECT_NEAR(cut_at_flow(power(4, 0.04, 0.5), 0.01), 8, 1e-14); }

TEST(CutAtFlow, HasNoFigureWhereOneIsLackingOrImpossible) {
  EXPECT_TRUE(std::isnan(cut_at_flow(power(4, 2, 0.75), std::nan(""))));
  EXPECT_TRUE(std::isnan(cut_at_flow(power(4, 2, 0), 0)));
  EXPECT_TRUE(std::isnan(cut_at_flow(power(4, 0, 0), 2)));
  EXPECT_TRUE(std::isnan(cut_at_flow(power(4, -2, 1), -2)));
  EXPECT_TRUE(std::isnan(cut_at_flow(power(4, -2, 1), 2)));
  EXPECT_TRUE(std::isnan(cut_at_flow(power(4, std::nan(""), 0), 2)));
  EXPECT_TRUE(std::isnan(cut_at_flow(power(0, 2, 0.75), 2)));
  EXPECT_TRUE(std::isnan(cut_at_flow(CutLaw{}, 2)));
}

// pow(1, anything) is 1, even of what is missing.
TEST(CutAtFlow, HasNoFigureWithoutAnExponentAlsoAtTheNominalFlow) {
  EXPECT_TRUE(std::isnan(cut_at_flow(power(4, 2, std::nan("")), 2)));
}

TEST(CycloneExponents, HoldThoseThatAreRemembered) {
  for (const double exponent : {0.5, 0.75, 1.1, 1.13}) {
    EXPECT_LE(cyclone_exponents.lower, exponent);
    EXPECT_GE(cyclone_exponents.upper, exponent);
  }
}

}  // namespace
}  // namespace driftwarden::cut_law_test
