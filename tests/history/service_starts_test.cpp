// SPDX-License-Identifier: MIT
#include "history/service_starts.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "history/instrument_history.hpp"
#include "support/book_text.hpp"

namespace driftwarden::service_starts_test {
namespace {

constexpr Day in_october = 20742;

// Four uses of P1, a day each; serviced between the second and the third, and again after the last. Invented data.
BookText serviced_text() {
  BookText text;
  text.samples = "sample,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (const std::string day : {"21", "22", "23", "24"}) {
    text.samples += "S" + day + ",P1,2026-09-" + day + "T08:00,2026-09-" + day + "T16:00\n";
    text.readings += "2026-09-" + day + "T07:30,pre,S" + day + ",V1,2.0" + day + "\n2026-09-" + day + "T16:10,post,S" +
                     day + ",V1,2.000\n";
  }
  text.service =
      "serviced,instrument,what\n2026-09-22T17:00,P1,new diaphragm\n2026-09-22T18:00,P2,cleaned\n"
      "2027-01-01T10:00,P1,later\n";
  return text;
}

TEST(ServiceStarts, AreThoseOfTheInstrumentUpToTheDay) {
  const Book book = book_of(serviced_text());
  const ServiceStarts starts = service_starts(book, 0, in_october);
  ASSERT_EQ(starts.by_time.size(), 1U);
  EXPECT_EQ(starts.by_time[0].reason, "new diaphragm");
  EXPECT_EQ(starts.by_time[0].at, book.services[0].serviced);
  ASSERT_EQ(starts.by_day.size(), 1U);
  EXPECT_EQ(starts.by_day[0].at, static_cast<Moment>(day_from({2026, 9, 22})) * 86400 + 1);  // after what stands on it
  EXPECT_TRUE(service_starts(book, 2, in_october).by_time.empty());
}

TEST(ServiceStarts, CutTheSeriesOfAPumpAndSetItsHoursBack) {
  const Book book = book_of(serviced_text());
  const RuleSet rules = RulesText{}.rule_set();
  const Screening screening(book, rules);
  const auto histories = histories_of(screening, {0}, in_october, {});
  const SeriesHistory* flow = histories[0].find("pre-flow");
  ASSERT_NE(flow, nullptr);
  ASSERT_EQ(flow->series.phases.size(), 2U);
  EXPECT_EQ(flow->series.phases[1].first, 2U);
  EXPECT_EQ(flow->series.phases[1].reason, "new diaphragm");
  const SeriesHistory* hours = histories[0].find("running-hours");
  ASSERT_NE(hours, nullptr);
  EXPECT_NEAR(hours->series.points[1].value, 16, 1e-9);
  EXPECT_NEAR(hours->series.points[2].value, 8, 1e-9);
}

}  // namespace
}  // namespace driftwarden::service_starts_test
