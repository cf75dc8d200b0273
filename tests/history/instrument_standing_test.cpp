// SPDX-License-Identifier: MIT
#include "history/instrument_standing.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"
#include "support/laboratory_book.hpp"

namespace driftwarden::instrument_standing_test {
namespace {

BookText with_due_dates() {
  BookText text;
  text.instruments =
      "instrument,kind,principle,interval [d],out of service\n"
      "P1,pump,,,2026-09-23\nV1,calibrator,volumetric,100,\nV2,calibrator,volumetric,,\nT1,thermometer,,365,\n"
      "B1,barometer,,,\n";
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,,2,2,2\nC2,V1,2026-06-05,2026-09-01,2,2,2\nC3,V1,2026-12-01,,2,2,2\n";
  return text;
}

const InstrumentStanding& standing(const ReviewedBook& book, const std::string& name) {
  for (const InstrumentStanding& of : book.review().instruments) {
    if (book.screening().book().instruments[of.instrument].name == name) return of;
  }
  throw std::runtime_error("no instrument " + name);
}

TEST(InstrumentStanding, IsByTheNewestCertificateUpToTheDay) {
  const ReviewedBook book(with_due_dates());
  ASSERT_NE(standing(book, "V1").newest, nullptr);
  EXPECT_EQ(standing(book, "V1").newest->name, "C2");
  EXPECT_EQ(standing(book, "V1").due, day("2026-09-01"));
  EXPECT_EQ(standing(book, "V2").newest, nullptr);
  EXPECT_EQ(standing(book, "V2").due, no_day);
}

TEST(InstrumentStanding, KnowsWhatHasToBeCalibrated) {
  const ReviewedBook book(with_due_dates());
  const Book& records = book.screening().book();
  EXPECT_TRUE(standing(book, "V2").has_to_be_calibrated(records));
  EXPECT_TRUE(standing(book, "T1").has_to_be_calibrated(records));
  EXPECT_FALSE(standing(book, "B1").has_to_be_calibrated(records));
  EXPECT_FALSE(standing(book, "P1").has_to_be_calibrated(records));
}

TEST(InstrumentStanding, OfAPumpIsWorthALineWhereItWasOut) {
  const ReviewedBook out(BookText{}, {}, "2026-09-24");
  const ReviewedBook in_the_cupboard(BookText{}, {}, "2026-11-24");
  const auto is_worth = [](const ReviewedBook& book, const char* name) {
    return standing(book, name).is_worth_a_line(book.screening().book());
  };
  EXPECT_TRUE(is_worth(out, "P1"));
  EXPECT_FALSE(is_worth(out, "P2"));
  EXPECT_FALSE(is_worth(in_the_cupboard, "P1"));
  EXPECT_TRUE(is_worth(in_the_cupboard, "V1"));
}

TEST(InstrumentStanding, IsOutOfServiceFromTheDayOn) {
  EXPECT_TRUE(standing(ReviewedBook(with_due_dates(), {}, "2026-09-22"), "P1").is_in_service);
  EXPECT_FALSE(standing(ReviewedBook(with_due_dates(), {}, "2026-09-23"), "P1").is_in_service);
}

TEST(InstrumentStanding, CountsEachSampleOnceForEachInstrument) {
  const ReviewedBook book(with_due_dates());
  const InstrumentUse& use = standing(book, "V1").use;
  EXPECT_EQ(use.recent_samples, 1U);  // read before and after
  EXPECT_EQ(use.overdue_samples, 1U);
  EXPECT_EQ(use.last_used, day("2026-09-21"));
  EXPECT_EQ(standing(book, "P1").use.recent_samples, 1U);
  EXPECT_EQ(standing(ReviewedBook(with_due_dates(), {}, "2026-10-20"), "P1").use.recent_samples, 0U);
}

TEST(InstrumentStanding, CountsWhatWasWeighedOnABalanceByTheDayOfTheWeight) {
  const ReviewedBook book(weighing_book());
  EXPECT_EQ(standing(book, "MB-2").use.last_used, day("2026-09-28"));
  EXPECT_EQ(standing(book, "MB-2").use.recent_samples, 1U);
  EXPECT_EQ(standing(book, "MB-2").use.overdue_samples, 0U);
}

}  // namespace
}  // namespace driftwarden::instrument_standing_test
