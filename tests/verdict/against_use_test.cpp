// SPDX-License-Identifier: MIT
#include "verdict/against_use.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::against_use_test {
namespace {

// input: P1, P2, V1 and V2 of the small book, rows 0 to 3.

using Texts = std::vector<std::string>;
constexpr Row p1 = 0;
constexpr Row v1 = 2;
constexpr Row v2 = 3;

Day day(const char* text) {
  const TimeZone zone = TimeZone::utc();
  Day day = no_day;
  StampReader(zone, DateOrder::iso).read_date(text, day);
  return day;
}

Texts against(const BookText& text, Row instrument, const char* on, const char* as_of = "2026-09-24") {
  JudgedBook book(text);
  return against_use(book.screening(), instrument, day(on), day(as_of));
}

TEST(AgainstUse, IsNothingOfWhatIsInOrder) {
  EXPECT_EQ(against(BookText(), p1, "2026-09-25"), Texts());
  EXPECT_EQ(against(BookText(), v1, "2026-09-25"), Texts());
}

TEST(AgainstUse, IsThatItIsOutOfServiceOnTheDay) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,in service,out of service\nP1,pump,,2026-09-01,2026-09-25\nP2,pump,,,\n"
      "V1,calibrator,volumetric,,2026-09-25\nV2,calibrator,volumetric,,\n";
  EXPECT_EQ(against(text, p1, "2026-09-24"), Texts());
  EXPECT_EQ(against(text, p1, "2026-09-25"), Texts{"Out of service since 2026-09-25: do not use it."});
  EXPECT_EQ(against(text, v1, "2026-09-26"), Texts{"Out of service since 2026-09-25: do not use it."});
  EXPECT_EQ(against(text, p1, "2026-08-31"), Texts{"In service from 2026-09-01: do not use it before that day."});
}

TEST(AgainstUse, IsThatItIsMissingOrCameBackDamaged) {
  BookText text;
  text.issues = "kit,instrument,out,back,condition,missing,note\nK-1,P1,2026-09-20,2026-09-22,,yes,\n";
  EXPECT_EQ(against(text, p1, "2026-09-25"), Texts{"Missing from kit K-1."});
  EXPECT_EQ(against(text, p1, "2026-09-25", "2026-09-21"), Texts()) << "nobody knows yet";
  text.issues = "kit,instrument,out,back,condition,missing,note\nK-1,P1,2026-09-20,2026-09-22,damaged,,door broken\n";
  EXPECT_EQ(against(text, p1, "2026-09-25"),
            Texts{"Came back damaged on 2026-09-22 (door broken): do not use it before something is done to it."});
}

TEST(AgainstUse, OfACalibratorIsThatItsCertificateHasRunOutOrThereIsNone) {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-09-25,2,2,2\n";
  EXPECT_EQ(against(text, v1, "2026-09-25"), Texts()) << "the day it is due";
  EXPECT_EQ(against(text, v1, "2026-09-26"),
            Texts{"Past due since 2026-09-25: do not use it before it is calibrated."});
  EXPECT_EQ(against(text, v2, "2026-09-25"), Texts{"No certificate of it is in force: its error is not corrected."});
  EXPECT_EQ(against(text, p1, "2026-09-25"), Texts()) << "a pump needs none";
}

}  // namespace
}  // namespace driftwarden::against_use_test
