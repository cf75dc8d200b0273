// SPDX-License-Identifier: MIT
#include "assessment/weighing.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "assessment/assessed_book.hpp"
#include "book/stamp_text.hpp"
#include "support/laboratory_book.hpp"

namespace driftwarden::weighing_test {
namespace {

// derived: 1.5, 2.0 and 2.5 are the sides of a right triangle.
TEST(Weighing, KnowsADifferenceAsWellAsItsTwoWeights) {
  EXPECT_NEAR(uncertainty_of_difference(0.0015, 0.0020), 0.0025, 1e-15);
  EXPECT_TRUE(std::isnan(uncertainty_of_difference(0.0015, missing)));
}

Certificate certificate_of(std::vector<ConditionPoint> points) {
  Certificate certificate;
  certificate.condition_points = std::move(points);
  return certificate;
}

// derived: half way between 0.0030 and 0.0050 mg, over 2.
TEST(Weighing, TakesTheUncertaintyOfAWeightBetweenThePoints) {
  const Certificate certificate = certificate_of({{20, 20, {}, {}, 0.0050}, {10, 10, {}, {}, 0.0030}});
  EXPECT_NEAR(uncertainty_of_weight(certificate, 15), 0.0020, 1e-15);
  EXPECT_NEAR(uncertainty_of_weight(certificate, 20), 0.0025, 1e-15);
  EXPECT_NEAR(uncertainty_of_weight(certificate, 5), 0.0015, 1e-15) << "below all points";
  EXPECT_NEAR(uncertainty_of_weight(certificate, 50), 0.0025, 1e-15) << "above them";
}

// input: a point without an uncertainty.
TEST(Weighing, KnowsNoUncertaintyThatACertificateDoesNotState) {
  const Certificate certificate = certificate_of({{10, 10, {}, {}, 0.0030}, {20, 20, {}, {}, {}}});
  EXPECT_TRUE(is_missing(uncertainty_of_weight(certificate, 15)));
  EXPECT_FALSE(is_missing(uncertainty_of_weight(certificate, 5)));
  EXPECT_TRUE(is_missing(uncertainty_of_weight(certificate_of({}), 15)));
}

Weighing weighing_in(const BookText& text, std::size_t number = 0) {
  const AssessedBook assessed(text);
  return weighing_of(assessed.basis, assessed.book.results.at(number));
}

// derived: by M1 at 15.31 mg 0.0015 + 0.531 x 0.0010 mg, by M2 at 15.842 mg 0.0030 + 0.5842 x 0.0020 mg.
TEST(Weighing, LeansOnTheCertificateInForceOnEachDay) {
  const Weighing weighing = weighing_in(weighing_book());
  EXPECT_EQ(weighing.before.certificate, 2);
  EXPECT_EQ(weighing.after.certificate, 3);
  EXPECT_NEAR(weighing.before.u_mg, 0.002031, 1e-12);
  EXPECT_NEAR(weighing.after.u_mg, 0.0041684, 1e-12);
  EXPECT_FALSE(weighing.lacks_certificate());
}

TEST(Weighing, TakesTheDayOfTheReportWhereNoOtherIsWrittenAndTheLaterForTheEarlier) {
  const Weighing later = weighing_in(weighing_book(), 1);
  EXPECT_EQ(later.before.day, later.after.day);
  const Weighing reported = weighing_in(
      weighing_book("sample,analyte,before [mg],after [mg],balance,reported\nS1,dust,15,16,MB-2,2026-09-30\n"));
  EXPECT_EQ(date_text(reported.before.day), "2026-09-30");
  const Weighing never =
      weighing_in(weighing_book("sample,analyte,before [mg],after [mg],balance\nS1,dust,15,16,MB-2\n"));
  EXPECT_NE(never.balance, no_row);
  EXPECT_FALSE(never.has_days());
  EXPECT_FALSE(never.lacks_certificate());
}

TEST(Weighing, LacksACertificateBeforeTheFirstOne) {
  const Weighing weighing =
      weighing_in(weighing_book("sample,analyte,before [mg],after [mg],balance,weighed before,weighed after\n"
                                "S1,dust,15,16,MB-2,2025-08-31,2026-09-28\n"));
  EXPECT_TRUE(weighing.lacks_certificate());
  EXPECT_TRUE(is_missing(weighing.before.u_mg));
}

TEST(Weighing, IsOfNoAmountThatTheLaboratoryStatesAndNoOtherInstrument) {
  EXPECT_EQ(weighing_in(weighing_book("sample,analyte,amount [mg],balance\nS1,dust,0.5,MB-2\n")).balance, no_row);
  EXPECT_EQ(weighing_in(weighing_book("sample,analyte,before [mg],after [mg],balance\nS1,dust,15,16,V1\n")).balance,
            no_row);
}

// derived: from 2026-09-20 to 2026-09-19, 20 and 21.
TEST(Weighing, IsOverdueFromTheDayAfterTheBalanceWasDue) {
  for (const auto& [day, days] : {std::pair("2026-09-19", -1.0), {"2026-09-20", 0.0}, {"2026-09-21", 1.0}}) {
    BookText text = weighing_book(std::string("sample,analyte,before [mg],after [mg],balance,weighed before,weighed "
                                              "after\nS1,dust,15,16,MB-2,2026-09-01,") +
                                  day + "\n");
    text.balances.resize(text.balances.find("M2,"));
    const AssessedBook assessed(text);
    EXPECT_EQ(overdue_min(assessed.basis, weighing_of(assessed.basis, assessed.book.results.at(0))),
              days * minutes_a_day)
        << day;
  }
}

}  // namespace
}  // namespace driftwarden::weighing_test
