// SPDX-License-Identifier: MIT
#include "doubt/replicates.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "statistics/random_numbers.hpp"
#include "support/book_text.hpp"

namespace driftwarden::replicates_test {
namespace {

// input: readings, steps and spreads, where nothing else is said.

Replicates set_of(std::vector<double> readings) {
  Replicates set;
  set.rows.resize(readings.size());
  set.indicated_l_min = std::move(readings);
  return set;
}

TEST(Replicates, AreTheSetsOfSamplesAndThenThoseOfPumps) {
  BookText text;
  text.readings =
      "taken,stage,sample,pump,calibrator,reading [L/min],void,note\n"
      "2026-09-21T05:00,pre,,P2,V1,2.100,,\n"
      "2026-09-21T07:30,pre,S1,P1,V1,2.000,,\n2026-09-21T07:31,pre,S1,P1,V1,2.900,yes,slipped\n"
      "2026-09-21T07:32,pre,S1,P1,V1,2.001,,\n"
      "2026-09-21T12:00,field,S1,P1,V2,1.900,yes,slipped\n"
      "2026-09-21T16:10,post,S1,P1,V2,1.950,,\n2026-09-21T16:11,post,S1,P1,V2,2.O,,\n"
      "2026-09-21T19:00,post,,P1,V1,2.200,,\n2026-09-21T22:00,post,,P1,V9,2.200,,\n";
  const Book book = book_of(text);
  const std::vector<Replicates> all = replicates_of(book, {book, std::nullopt});
  std::string told;
  for (const Replicates& set : all) {
    told += std::string(owner_name(book, set)) + " " + std::string(to_text(set.stage)) + " " +
            book.instruments[set.calibrator].name + " " + std::to_string(set.rows.size()) + "; ";
  }
  EXPECT_EQ(told, "S1 pre V1 2; S1 post V2 1; P1 post V1 1; P2 pre V1 1; ");
  EXPECT_EQ(all[0].indicated_l_min, (std::vector<double>{2.000, 2.001}));
  EXPECT_EQ(those_of_samples(all).size(), 2U);
  text.readings = text.readings.substr(0, text.readings.find("2026-09-21T07:30"));
  const Book single = book_of(text);
  EXPECT_EQ(replicates_of(single, {single, std::nullopt}).size(), 1U) << "the only reading";
}

Replicates set_with(Row calibrator, std::vector<double> readings) {
  Replicates set = set_of(std::move(readings));
  set.calibrator = calibrator;
  return set;
}

// By hand: of V1's sets two have three readings; the closest
// readings lie 0.0005 apart; of 8 pairs of one set 2 are equal, and one more counts as seen.
TEST(Replicates, TellHowEachCalibratorScattersAndShows) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,resolution [L/min]\nP1,pump,,\nP2,pump,,\nV1,calibrator,volumetric,\n"
      "V2,calibrator,volumetric,0.005\nV3,calibrator,volumetric,\n";
  const Book book = book_of(text);
  const Row v1 = 2;
  const Row v2 = 3;
  const Row v3 = 4;
  const ScatterMap scatter = scatter_by_calibrator(
      book, {set_with(v1, {2.000, 2.002, 2.001}), set_with(v1, {3.0000, 3.0005}), set_with(v1, {2.010, 2.010, 2.016}),
             set_with(v2, {2.000, 2.000 + 0.99e-9}), set_with(v1, {2.000, 2.000}), set_with(v3, {2.000})});
  EXPECT_EQ(scatter.at(v1).sets, 2U);
  EXPECT_NEAR(scatter.at(v1).step, 0.0005, 1e-12);
  EXPECT_EQ(scatter.at(v1).equal_pairs, 3.0 / 9);
  EXPECT_EQ(scatter.at(v2).step, 0.005);
  EXPECT_EQ(scatter.at(v2).equal_pairs, 1.0 / 2);
  EXPECT_EQ(scatter.at(v3).sets, 0U);
  EXPECT_EQ(scatter.at(v3).step, 0);
  EXPECT_EQ(scatter.at(v3).equal_pairs, 1);
}

// What is closer than 1e-9 L/min differs by rounding only.
TEST(Replicates, DifferFromABillionthOfALitreOn) {
  const Book book = book_of(BookText());
  const Row v1 = 2;
  EXPECT_EQ(scatter_by_calibrator(book, {set_with(v1, {2, 2 + 0.99e-9})}).at(v1).step, 0);
  EXPECT_NEAR(scatter_by_calibrator(book, {set_with(v1, {2, 2 + 1.01e-9})}).at(v1).step, 1.01e-9, 1e-14);
  EXPECT_NEAR(scatter_by_calibrator(book, {set_with(v1, {2, 2.003, 2.004})}).at(v1).step, 0.001, 1e-12);
  EXPECT_NEAR(scatter_by_calibrator(book, {set_with(v1, {2, 2.001, 2.004})}).at(v1).step, 0.001, 1e-12);
  EXPECT_TRUE(set_of({2, 2 + 0.99e-9}).are_all_equal());
  EXPECT_FALSE(set_of({2, 2 + 1.01e-9}).are_all_equal());
  EXPECT_FALSE(set_of({}).are_all_equal());
}

TEST(Replicates, AreEqualUnlessOneDiffers) {
  EXPECT_TRUE(set_of({2.001, 2.001, 2.001}).are_all_equal());
  EXPECT_FALSE(set_of({2.001, 2.001, 2.002}).are_all_equal());
}

// By hand: 0.050 less a step of 0.002, over 0.053. Dixon's ratio is never above 1; Grubbs' G of an outlier is.
TEST(Replicates, AreHeldToDixonsRatioUpToSixAndToGrubbsFromSevenOn) {
  EXPECT_NEAR(far_out(std::vector<double>{2.001, 2.002, 1.950, 2.000, 2.003}, 0.002)->statistic, 0.048 / 0.053, 1e-9);
  EXPECT_TRUE(far_out(std::vector<double>{2.0000, 2.0001, 2.0500}, 1e-6));
  std::vector<double> readings{2.001, 2.004, 2.000, 2.002, 2.003, 2.100};
  EXPECT_LT(far_out(readings, 0.001)->statistic, 1);
  readings.push_back(1.999);
  EXPECT_GT(far_out(readings, 0.001)->statistic, 1);
}

// By definition: in 10,000 sets one in a thousand turns up ten times, one in 10,000 once.
TEST(Replicates, ThatAreRareAreToldWhereTheyAreRarerThanOneInTheBook) {
  EXPECT_EQ(rarest_told(0.001, 0), 0.001);
  EXPECT_EQ(rarest_told(0.001, 1000), 0.001);
  EXPECT_EQ(rarest_told(0.001, 10000), 0.0001);
}

TEST(Replicates, FarOutIsTheReadingThatIsFar) {
  const std::vector<double> five{2.001, 2.004, 1.950, 2.000, 2.002};
  ASSERT_TRUE(far_out(five, 0.001));
  EXPECT_EQ(far_out(five, 0.001)->index, 2U);
  const std::vector<double> eight{2.001, 2.004, 2.000, 2.002, 2.003, 1.999, 2.050, 2.001};
  ASSERT_TRUE(far_out(eight, 0.001));
  EXPECT_EQ(far_out(eight, 0.001)->index, 6U);
  EXPECT_FALSE(far_out(std::vector<double>{2.001, 2.004, 1.999, 2.000, 2.002}, 0.001));
}

TEST(Replicates, OneStepApartAreNeverFarOut) {
  EXPECT_FALSE(far_out(std::vector<double>{2.000, 2.000, 2.000, 2.000, 2.001}, 0.001));
  EXPECT_FALSE(far_out(std::vector<double>{2.000, 2.000, 2.050}, 0));  // without a step, 0.05 may be one
  EXPECT_FALSE(far_out(std::vector<double>{2.000, 2.000, 2.000}, 0.001));
  EXPECT_FALSE(far_out(std::vector<double>{2.000, 2.100}, 0.001));
}

// The rate told in docs/uncertainty.md: at most 1 set in 100 of normal readings, whatever the display.
TEST(Replicates, AreFarOutByChanceInAtMostOneSetOfAHundred) {
  test::RandomNumbers random(4);
  constexpr int sets = 20000;
  for (const std::size_t n : {3U, 5U, 8U}) {
    for (const double sigma_in_steps : {0.5, 2.0, 50.0}) {
      int raised = 0;
      std::vector<double> readings(n);
      for (int i = 0; i < sets; ++i) {
        const double level = random.uniform();
        for (double& reading : readings)
          reading = 0.001 * (2000 + std::round(level + sigma_in_steps * random.normal()));
        raised += far_out(readings, 0.001) ? 1 : 0;
      }
      EXPECT_LE(raised, 0.01 * sets + 3 * std::sqrt(0.01 * sets)) << n << " readings, spread " << sigma_in_steps;
    }
  }
}

}  // namespace
}  // namespace driftwarden::replicates_test
