// SPDX-License-Identifier: MIT
#include "assessment/pump_conditions.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/worked_budget.hpp"

namespace driftwarden::pump_conditions_test {
namespace {

// input: a sample between two checks at given conditions; flows are of no account.
BookText checked_at(const std::string& pre, const std::string& post, const std::string& sampling = "20,85") {
  BookText text = worked_book();
  text.samples =
      "sample,pump,started,stopped,temperature [°C],pressure [kPa]\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00," +
      sampling + "\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n"
      "2026-09-21T07:30,pre,S1,V1,2," +
      pre + "\n2026-09-21T16:10,post,S1,V1,2," + post + "\n";
  return text;
}

std::optional<PumpConditions> far(const std::string& pre, const std::string& post,
                                  const std::string& sampling = "20,85") {
  const BudgetedBook book(checked_at(pre, post, sampling));
  std::optional<PumpConditions> found = far_from_its_check(book.basis, book.figures);
  if (found) found->set = nullptr;  // it goes with the book
  return found;
}

// derived: the example of the formula.
TEST(PumpConditions, GoWithTheRootOfTheTemperatureAndOfThePressure) {
  EXPECT_NEAR(uncompensated_flow(278.15 / 293.15, 1), 0.97408, 5e-6);
  EXPECT_NEAR(uncompensated_flow(1, 81.0 / 100), 1 / 0.9, 1e-12);
}

TEST(PumpConditions, OnFiveKelvinAndTwoPercentAreNotFar) {
  EXPECT_FALSE(far("25,85", "15,85"));
  EXPECT_FALSE(far("20,100", "20,100", "20,98"));
  EXPECT_TRUE(far("25.1,85", "20,85"));
  EXPECT_TRUE(far("20,85", "14.9,85"));
  EXPECT_TRUE(far("20,100", "20,100", "20,97.9"));
}

TEST(PumpConditions, AreThoseOfTheSetThatIsFarthestOff) {
  const auto found = far("26,85", "35,85");
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->warmer_k, -15, 1e-9);
  EXPECT_NEAR(found->flow_change, std::sqrt(293.15 / 308.15) - 1, 1e-12);
}

TEST(PumpConditions, ThatNobodyWroteDownAreNotFar) {
  EXPECT_FALSE(far(",", ","));
  EXPECT_FALSE(far("35,100", "35,100", ","));
}

TEST(PumpConditions, AreCompensatedForAsTheInstrumentSaysElseTheBook) {
  BookText text = checked_at("20,85", "20,85");
  EXPECT_EQ(compensates(book_of(text), 0), std::nullopt);
  text.settings += "[pump]\ncompensates = \"no\"\n";
  EXPECT_EQ(compensates(book_of(text), 0), false);
  text.instruments =
      "instrument,kind,principle,resolution [L/min],compensates\nP1,pump,,,yes\nV1,calibrator,volumetric,,\n"
      "V2,calibrator,volumetric,,\n";
  EXPECT_EQ(compensates(book_of(text), 0), true);
}

TEST(PumpConditions, OnTwoPointNoughtFivePercentAreFar) { EXPECT_TRUE(far("20,100", "20,100", "20,97.95")); }

// derived: 97 of 100 kPa are -3 %, and the flow goes with the root of 1 / 0.97; what nobody said counts as unchanged.
TEST(PumpConditions, OfPressureAloneSayNothingOfTheTemperature) {
  const auto found = far(",100", ",100", ",97");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->warmer_k, 0);
  EXPECT_NEAR(found->denser, -0.03, 1e-12);
  EXPECT_NEAR(found->flow_change, std::sqrt(1 / 0.97) - 1, 1e-12);
}

TEST(PumpConditions, ByAltitudeSayNothingOfThePressure) {
  BookText text = checked_at("35,", "35,", "20,70");
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  const BudgetedBook book(text);
  const auto found = far_from_its_check(book.basis, book.figures);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->denser, 0);
  EXPECT_NEAR(found->flow_change, std::sqrt(293.15 / 308.15) - 1, 1e-12);
}

TEST(PumpConditions, OfTwoSetsAsFarOffAreThoseOfTheFirst) {
  const BudgetedBook book(checked_at("35,85", "35,85"));
  EXPECT_EQ(far_from_its_check(book.basis, book.figures)->set, book.figures.pre_set());
}

TEST(PumpConditions, OfAnUnknownPumpAreCompensatedForAsTheBookSays) {
  BookText text = checked_at("20,85", "20,85");
  text.settings += "[pump]\ncompensates = \"no\"\n";
  EXPECT_EQ(compensates(book_of(text), no_row), false);
}

}  // namespace
}  // namespace driftwarden::pump_conditions_test
