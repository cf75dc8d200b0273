// SPDX-License-Identifier: MIT
#include "history/pump_series.hpp"

#include <gtest/gtest.h>

#include "assessment/worked_budget.hpp"
#include "support/book_text.hpp"

namespace driftwarden::pump_series_test {
namespace {

constexpr Day in_october = 20742;

// Two uses of P1 a week apart.
BookText two_uses() {
  BookText text;
  text.samples =
      "sample,pump,nominal [L/min],started,stopped,paused [min]\n"
      "S1,P1,2.0,2026-09-21T08:00,2026-09-21T16:00,\n"
      "S2,P1,2.0,2026-09-28T08:00,2026-09-28T14:00,60\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n"
      "2026-09-21T16:10,post,S1,V1,1.950\n"
      "2026-09-28T07:30,pre,S2,V1,2.040\n"
      "2026-09-28T14:10,post,S2,V1,2.000\n";
  return text;
}

std::vector<Series> series_of(const JudgedBook& book, std::vector<PhaseStart> starts = {}) {
  return pump_series(book.screening(), use_log_of(book.screening(), in_october), 0, starts);
}

const Series& named(const std::vector<Series>& all, std::string_view name) {
  for (const Series& series : all) {
    if (series.name == name) return series;
  }
  throw std::runtime_error("no series " + std::string(name));
}

TEST(PumpSeries, TellFlowDeviationDriftAndHours) {
  const JudgedBook book(two_uses());
  const auto all = series_of(book);
  ASSERT_EQ(all.size(), 5U);
  EXPECT_NEAR(named(all, "pre-flow").points.at(1).value, 2.04, 1e-12);
  EXPECT_NEAR(named(all, "pre-flow-deviation").points.at(1).value, 2.0, 1e-9);
  EXPECT_NEAR(named(all, "drift").points.at(0).value, -2.5, 1e-9);
  EXPECT_NEAR(named(all, "drift-size").points.at(0).value, 2.5, 1e-9);
  EXPECT_NEAR(named(all, "running-hours").points.at(0).value, 8, 1e-12);
  EXPECT_NEAR(named(all, "running-hours").points.at(1).value, 13, 1e-12);
}

TEST(PumpSeries, NameTheSampleBehindEachPoint) {
  const JudgedBook book(two_uses());
  EXPECT_EQ(named(series_of(book), "drift").points.at(1).from, "S2");
}

// The two uses, and a check on the bench that no sample leans on.
BookText with_a_bench_check(const std::string& stage) {
  BookText text = two_uses();
  replace_all(text.readings, "taken,stage,sample,", "taken,stage,sample,pump,");
  for (const char* sample : {",S1,", ",S2,"}) replace_all(text.readings, sample, std::string(sample) + ",");
  text.readings += "2026-10-05T09:00," + stage + ",,P1,V1,2.100\n";
  return text;
}

TEST(PumpSeries, HoldReadingsThatAreOfNoSample) {
  for (const char* stage : {"pre", "post", "field"}) {
    const JudgedBook book(with_a_bench_check(stage));
    const auto all = series_of(book);
    ASSERT_EQ(named(all, "pre-flow-deviation").points.size(), 3U) << stage;
    const SeriesPoint& point = named(all, "pre-flow-deviation").points[2];
    EXPECT_NEAR(point.value, 5, 1e-9);  // its nominal flow is that of the pump's samples
    EXPECT_EQ(to_text(point.kind), "bench");
    EXPECT_EQ(point.from, "");
    EXPECT_EQ(to_text(named(all, "pre-flow").points[1].kind), "sample");
    EXPECT_EQ(named(all, "drift").points.size(), 2U);
  }
}

TEST(PumpSeries, OfAPumpThatNoSampleNamesAreItsReadings) {
  BookText text = with_a_bench_check("pre");
  replace_all(text.readings, ",P1,", ",P2,");
  const JudgedBook book(text);
  const auto all = pump_series(book.screening(), use_log_of(book.screening(), in_october), 1, {});
  ASSERT_EQ(all.size(), 1U);  // without a nominal flow
  EXPECT_EQ(all[0].name, "pre-flow");
}

TEST(PumpSeries, CountHoursAnewAfterService) {
  const JudgedBook book(two_uses());
  const Moment between = static_cast<Moment>(day_from({2026, 9, 25})) * 86400;
  const auto all = series_of(book, {{between, "new diaphragm"}});
  EXPECT_NEAR(named(all, "running-hours").points.at(1).value, 5, 1e-12);
  EXPECT_EQ(named(all, "pre-flow").phases.size(), 2U);
}

TEST(PumpSeries, HaveNoDeviationWithoutANominalFlow) {
  const JudgedBook book({});
  for (const Series& series : series_of(book)) EXPECT_NE(series.name, "pre-flow-deviation");
}

TEST(PumpSeries, StateToleranceInFlowWhereTheNominalFlowIsOne) {
  const RulesText rules{{{Subject::sample, "pre.deviation", "within", {"5 %"}}}};
  const JudgedBook book(two_uses(), rules);
  EXPECT_NEAR(named(series_of(book), "pre-flow").tolerance.upper, 2.1, 1e-12);
  EXPECT_NEAR(named(series_of(book), "pre-flow").tolerance.lower, 1.9, 1e-12);
}

TEST(PumpSeries, StateNoToleranceInFlowWhereTheNominalFlowChanged) {
  BookText text = two_uses();
  text.samples.replace(text.samples.find("S2,P1,2.0"), 9, "S2,P1,1.7");
  const RulesText rules{{{Subject::sample, "pre.deviation", "within", {"5 %"}}}};
  const JudgedBook book(text, rules);
  EXPECT_FALSE(named(series_of(book), "pre-flow").tolerance.is_stated());
  EXPECT_TRUE(named(series_of(book), "pre-flow-deviation").tolerance.is_stated());
}

TEST(PumpSeries, OfAPumpNobodyUsedAreNone) {
  const JudgedBook book(two_uses());
  EXPECT_TRUE(pump_series(book.screening(), use_log_of(book.screening(), in_october), 1, {}).empty());
}

}  // namespace
}  // namespace driftwarden::pump_series_test
