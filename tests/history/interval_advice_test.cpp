// SPDX-License-Identifier: MIT
#include "history/interval_advice.hpp"

#include <gtest/gtest.h>

#include "history/certificate_series.hpp"
#include "history/service_starts.hpp"
#include "quantity/rounding.hpp"
#include "statistics/random_numbers.hpp"
#include "support/book_text.hpp"

namespace driftwarden::interval_advice_test {
namespace {

constexpr Day in_october = 20742;
constexpr Row v1 = 2;

std::string certificate(int year, const std::string& found, const std::string& left = "2.00") {
  const std::string start = std::to_string(year) + "-01-06";
  return "C" + std::to_string(year) + ",V1," + start + "," + std::to_string(year + 1) + "-01-06,2,2," + found + "," +
         left + ",1\n";
}

constexpr const char* heading =
    "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as found [L/min],as left "
    "[L/min],tolerance [%]\n";

std::vector<IntervalOpinion> opinions(const BookText& text, double reach_days = 365) {
  const JudgedBook book(text);
  const UseLog log = use_log_of(book.screening(), in_october);
  const auto comparisons = comparisons_from(log);
  const auto services = service_starts(book.book(), v1, in_october).by_day;
  const auto series = certificate_series(book.screening(), v1, in_october, services);
  if (series.empty()) return interval_opinions({book.screening(), v1, in_october, nullptr, nullptr, comparisons, log});
  const Forecast forecast = forecast_of(series[0], reach_days);
  return interval_opinions({book.screening(), v1, in_october, &series[0], &forecast, comparisons, log});
}

TEST(IntervalAdvice, GivesFiveOpinionsInTheGuidesOrder) {
  const auto all = opinions({});
  ASSERT_EQ(all.size(), 5U);
  EXPECT_EQ(all[0].method, "staircase");
  EXPECT_EQ(all[1].method, "control-chart");
  EXPECT_EQ(all[2].method, "in-use-time");
  EXPECT_EQ(all[3].method, "in-service-check");
  EXPECT_EQ(all[4].method, "reliability-target");
}

TEST(IntervalAdvice, NamesWhatItLacksAndGivesNoFigure) {
  for (const IntervalOpinion& opinion : opinions({})) {
    EXPECT_TRUE(is_missing(opinion.advice_days)) << opinion.method;
    EXPECT_FALSE(opinion.lacks.empty()) << opinion.method;
  }
}

// Certificates of years in a row, the newest of 2026, each left as it was found.
std::string yearly(const std::vector<std::string>& found) {
  std::string text = heading;
  const int first = 2027 - static_cast<int>(found.size());
  for (std::size_t i = 0; i < found.size(); ++i) text += certificate(first + static_cast<int>(i), found[i], "");
  return text;
}

IntervalOpinion staircase_of(const std::vector<std::string>& found) {
  BookText text;
  text.certificates = yearly(found);
  return opinions(text)[0];
}

// Factors of the staircase: 1.25 up to 80 % of the tolerance, 1 up to it, 0.6 beyond; the interval is 365 days.
TEST(Staircase, LengthensUpToFourFifthsOfTheTolerance) {
  EXPECT_NEAR(staircase_of({"2.016", "2.016", "2.016", "2.016", "2.016"}).advice_days, 456.25, 1e-9);
  EXPECT_EQ(staircase_of({"2.016", "2.016", "2.016", "2.016", "2.0161"}).advice_days, 365);
}

TEST(Staircase, LengthensByFiveResultsAtLeast) {
  const IntervalOpinion one = staircase_of({"2.012"});
  EXPECT_EQ(one.advice_days, 365);
  EXPECT_EQ(one.remark,
            "it came back well inside its tolerance, but a longer interval takes 5 results, of which there is 1, so it "
            "stays as it is");
  const IntervalOpinion four = staircase_of({"2.012", "2.012", "2.012", "2.012"});
  EXPECT_EQ(four.advice_days, 365);
  EXPECT_EQ(four.remark,
            "it came back well inside its tolerance, but a longer interval takes 5 results, of which there are 4, so "
            "it stays as it is");
}

TEST(Staircase, CountsResultsSinceTheLastRepair) {
  BookText text;
  text.certificates = yearly({"2.012", "2.012", "2.012", "2.012", "2.012", "2.012"});
  text.service = "serviced,instrument,what\n2022-07-01T08:00,V1,new piston\n";
  EXPECT_EQ(opinions(text)[0].advice_days, 365);
  text.service = "serviced,instrument,what\n2021-07-01T08:00,V1,new piston\n";
  EXPECT_NEAR(opinions(text)[0].advice_days, 456.25, 1e-9);
}

// The line rises by 0.275 % a year to 0.7 %: 1 % is reached after 398 days, before 456 are over. Half as fast, it is
// not.
TEST(Staircase, HeedsTheTrend) {
  const IntervalOpinion rising = staircase_of({"1.9920", "1.9974", "2.0030", "2.0084", "2.0140"});
  EXPECT_EQ(rising.advice_days, 365);
  EXPECT_EQ(rising.remark,
            "it came back well inside its tolerance, but by its trend it may leave it before a longer interval ends, "
            "so it stays as it is");
  EXPECT_NEAR(staircase_of({"2.0030", "2.0057", "2.0085", "2.0112", "2.0140"}).advice_days, 456.25, 1e-9);
}

TEST(Staircase, KeepsTheIntervalUpToTheTolerance) {
  BookText text;
  text.certificates = heading + certificate(2026, "2.02");
  EXPECT_NEAR(opinions(text)[0].advice_days, 365, 1e-9);
}

TEST(Staircase, ShortensBeyondTheTolerance) {
  BookText text;
  text.certificates = heading + certificate(2026, "2.0201");
  EXPECT_NEAR(opinions(text)[0].advice_days, 219, 1e-9);
  EXPECT_EQ(opinions(text)[0].remark, "it came back out of tolerance, so shorter");
}

// Five certificates of 30 days in a row, the last one due on another day.
std::string monthly(const std::string& found, const std::string& due = "2026-02-05") {
  std::string text = heading;
  for (const char* start : {"2025-09-08", "2025-10-08", "2025-11-07", "2025-12-07", "2026-01-06"})
    text += std::string("C") + start + ",V1," + start + "," + due + ",2,2," + found + ",,1\n";
  return text;
}

// A 30-day instrument: 30 × 1.25, 30, 30 × 0.6.
TEST(Staircase, IsNeverLengthenedToWhatIsPractical) {
  const auto opinion = [](const std::string& found) {
    BookText text;
    text.certificates = monthly(found);
    return opinions(text)[0];
  };
  const std::string floor = "; below 90 d, the shortest that is practical, and not raised to it";
  EXPECT_NEAR(opinion("2.010").advice_days, 37.5, 1e-9);
  EXPECT_EQ(opinion("2.010").remark, "it came back well inside its tolerance, so longer" + floor);
  EXPECT_EQ(opinion("2.018").advice_days, 30);
  EXPECT_EQ(opinion("2.018").remark, "it came back inside its tolerance, so it stays as it is");
  EXPECT_NEAR(opinion("2.030").advice_days, 18, 1e-9);
  EXPECT_EQ(opinion("2.030").remark, "it came back out of tolerance, so shorter" + floor);
}

// Three years: as it is stays so, also where that is longer than the longest that is advised.
TEST(Staircase, PrintsAsItIsAsItIs) {
  BookText text;
  text.certificates = monthly("2.018", "2029-01-06");
  EXPECT_EQ(opinions(text)[0].advice_days, 1096);
  text.certificates = monthly("2.010", "2029-01-06");
  EXPECT_EQ(opinions(text)[0].advice_days, 1096);
  EXPECT_EQ(opinions(text)[0].remark, "it came back well inside its tolerance, so longer; no longer than 1096 d");
  text.certificates = monthly("2.010", "2027-12-27");  // 720 d
  EXPECT_EQ(opinions(text)[0].advice_days, longest_interval_days);
}

TEST(ControlChartAdvice, NeedsFivePoints) {
  BookText text;
  text.certificates = heading + certificate(2025, "2.01") + certificate(2026, "2.01");
  EXPECT_TRUE(is_missing(opinions(text)[1].advice_days));
  EXPECT_EQ(opinions(text)[1].lacks.at(0), "5 errors as found, to tell a trend; there are 1");  // one step between two
}

TEST(ControlChartAdvice, IsTheEarliestDayOfTheCrossing) {
  BookText text;
  text.certificates = heading;
  const std::vector<std::string> found{"2.016", "2.015", "2.017", "2.016", "2.0155", "2.0165", "2.016"};
  for (std::size_t i = 0; i < found.size(); ++i) text.certificates += certificate(2020 + static_cast<int>(i), found[i]);
  const IntervalOpinion opinion = opinions(text)[1];
  EXPECT_GT(opinion.advice_days, 365);
  EXPECT_LT(opinion.advice_days, 365 * 20.0 / 16);  // before the line itself gets there
}

// own input: six calibrations 60 days apart, due after 300. The line meets the tolerance of 2 % 394.1 days after the
// last, beyond reach; the band's early edge 163.417 days after; computed with SciPy 1.10 by
// tests/support/computed_records.py.
TEST(ControlChartAdvice, FollowsTheEarlyEdgeWhereTheLineLiesBeyondReach) {
  BookText text;
  text.certificates = heading;
  const std::vector<std::pair<std::string, std::string>> dated{
      {"2024-01-01,2024-10-27", "2.000"}, {"2024-03-01,2024-12-26", "2.007"}, {"2024-04-30,2025-02-24", "2.004"},
      {"2024-06-29,2025-04-25", "2.013"}, {"2024-08-28,2025-06-24", "2.012"}, {"2024-10-27,2025-08-23", "2.019"}};
  for (const auto& [dates, found] : dated)
    text.certificates += "C" + found + ",V1," + dates + ",2,2," + found + ",,2\n";
  const IntervalOpinion opinion = opinions(text, 300)[1];
  EXPECT_NEAR(opinion.advice_days, 163.417, 1e-3);
  EXPECT_EQ(opinion.remark,
            "the earliest day on which it may leave its tolerance by the forecast; that day is past: it may be beyond "
            "it already");
}

// own input: seven monthly calibrations whose error grows by 0.1 % a month to 0.9 % of a tolerance of 1 %. By least
// squares and Student's t the line meets the tolerance 30.1 days after the last, the edge of the band of one more
// result (95 %) 23.160998 days after it; computed with SciPy 1.10 by tests/support/computed_records.py.
TEST(ControlChartAdvice, IsNeverLengthenedToWhatIsPractical) {
  BookText text;
  text.certificates = heading;
  const std::vector<std::string> found{"2.0060", "2.0079", "2.0101", "2.0119", "2.0141", "2.0159", "2.0180"};
  for (int month = 1; month <= 7; ++month) {
    const std::string start = "2026-0" + std::to_string(month) + "-06";
    const std::string due = "2026-0" + std::to_string(month + 1) + "-06";
    const std::string reading = found[static_cast<std::size_t>(month - 1)];
    text.certificates += "C" + start + ",V1," + start + "," + due + ",2,2," + reading + ",,1\n";
  }
  const IntervalOpinion opinion = opinions(text, 30)[1];
  EXPECT_NEAR(opinion.advice_days, 23.160998, 1e-3);
  EXPECT_EQ(opinion.remark,
            "the earliest day on which it may leave its tolerance by the forecast; below 90 d, the shortest that is "
            "practical, and "
            "not raised to it; that day is past: it may be beyond it already");
}

TEST(InServiceCheck, NeedsUncertaintiesOnBothSides) { EXPECT_FALSE(opinions({})[3].lacks.empty()); }

TEST(InServiceCheck, CallsForCalibrationWhereTwoCalibratorsDisagree) {
  for (const auto& [second, advice] : {std::pair<std::string, double>{"2.10", 0}, {"2.005", 365}}) {
    BookText text;
    text.certificates =
        "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min],expanded uncertainty "
        "[%],coverage factor\n"
        "C1,V1,2026-01-05,2027-01-05,2,2,2,0.5,2\nC2,V2,2026-01-05,2027-01-05,2,2,2,0.5,2\n";
    text.readings =
        "taken,stage,sample,calibrator,reading [L/min]\n"
        "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T07:31,pre,S1,V1,2.002\n"
        "2026-09-21T07:40,pre,S1,V2," +
        second + "0\n2026-09-21T07:41,pre,S1,V2," + second + "2\n";
    EXPECT_EQ(opinions(text)[3].advice_days, advice) << second;
  }
}

// V1 in use for five sets, each half an hour long, on one day.
BookText used_book(const std::string& permitted, const std::string& calibrated) {
  BookText text;
  text.instruments = "instrument,kind,principle,permitted use [h]\nP1,pump,,\nP2,pump,,\nV1,calibrator,volumetric," +
                     permitted + "\nV2,calibrator,volumetric,\n";
  text.certificates = std::string(heading) + "C1,V1," + calibrated + ",,2,2,2.01,2.00,1\n";
  text.readings = "taken,stage,pump,calibrator,reading [L/min]\n";
  for (const char* hour : {"07", "09", "11", "13", "15"})
    text.readings += std::string("2026-09-21T") + hour + ":00,pre,P1,V1,2\n2026-09-21T" + hour + ":30,pre,P1,V1,2\n";
  return text;
}

TEST(InUseTime, TellsWhenThePermittedHoursAreUsedUp) {
  const IntervalOpinion opinion = opinions(used_book("20", "2026-09-06"))[2];
  EXPECT_NEAR(opinion.advice_days, 40 * 20 / 2.5, 1e-9);  // derived: 2.5 h in the 40 days since
  EXPECT_EQ(opinion.from, (std::vector<std::string>{"2.5 h in use in 40 d by its readings", "permitted 20 h"}));
  EXPECT_EQ(opinion.remark, "until its permitted hours are used up, at the pace so far");
  EXPECT_TRUE(opinion.is_a_limit);
}

TEST(InUseTime, SaysThatTheHoursAreUsedUp) {
  const IntervalOpinion opinion = opinions(used_book("2", "2026-09-06"))[2];
  EXPECT_NEAR(opinion.advice_days, 32, 1e-9);
  EXPECT_TRUE(opinion.remark.starts_with("its permitted hours are used up")) << opinion.remark;
}

TEST(InUseTime, OfWhatIsNotUsedIsAsLongAsAnything) {
  BookText text = used_book("20", "2026-09-02");
  text.readings = "";
  EXPECT_EQ(opinions(text)[2].advice_days, longest_interval_days);
}

TEST(InUseTime, NeedsHoursACertificateAndAMonth) {
  EXPECT_EQ(opinions(used_book("", "2026-09-02"))[2].lacks.at(0),
            "hours in use that are permitted: the column permitted use of instruments.csv");
  EXPECT_EQ(opinions(used_book("20", "2026-09-17"))[2].lacks.at(0),
            "30 d since its calibration, to tell a pace; there are 29");
  BookText never = used_book("20", "2026-09-02");
  never.certificates = "";
  EXPECT_EQ(opinions(never)[2].lacks.at(0), "a certificate");
}

TEST(HoursInUse, CountASingleReadingAsAQuarterOfAnHourAndNothingOfTheDayOfCalibration) {
  BookText text = used_book("20", "2026-09-02");
  text.readings += "2026-09-22T07:00,pre,P1,V1,2\n2026-09-02T07:00,pre,P1,V1,2\n2026-09-23T07:00,pre,P1,V2,2\n";
  const JudgedBook book(text);
  const UseLog log = use_log_of(book.screening(), in_october);
  EXPECT_NEAR(hours_in_use(log, v1, 20698, TimeZone::utc()), 2.75, 1e-12);  // after 2026-09-02
}

TEST(Recommended, IsNothingWhereNoMethodHasAFigure) { EXPECT_EQ(recommended(opinions({})), nullptr); }

TEST(Recommended, IsTheShortestThatIsKnownToEnd) {
  const auto opinion = [](const char* method, double days, bool is_a_limit) {
    return IntervalOpinion{method, days, "why", {"one", "two"}, {}, is_a_limit};
  };
  const auto of = [](const std::vector<IntervalOpinion>& all) { return recommended(all)->method; };
  const IntervalOpinion staircase = opinion("staircase", 228, false);
  EXPECT_EQ(of({staircase, opinion("control-chart", 404, true)}), "staircase");
  EXPECT_EQ(of({staircase, opinion("control-chart", 100, true)}), "control-chart");
  EXPECT_EQ(of({staircase, opinion("control-chart", 100, false)}), "staircase");  // as it is
  EXPECT_EQ(of({staircase, opinion("reliability-target", 500, false)}), "reliability-target");
  EXPECT_EQ(of({opinion("staircase", 109, true), opinion("reliability-target", 500, false)}), "staircase");
  EXPECT_EQ(of({opinion("in-use-time", 90, true)}), "in-use-time");
  EXPECT_EQ(of({staircase, opinion("in-service-check", 0, true)}), "in-service-check");
  EXPECT_EQ(said_of(staircase), "228 d by staircase: why (one, two)");
  EXPECT_EQ(said_of(opinion("in-service-check", 0, true)), "now by in-service-check: why (one, two)");
}

// input: whatever the certificates of a calibrator say: errors that rise or fall evenly, wander, or stay.
TEST(Recommended, NeverContradictsTheForecast) {
  test::RandomNumbers random(19);
  std::size_t crossings = 0;
  for (int book = 0; book < 60; ++book) {
    BookText text;
    text.certificates = heading;
    const double a_year = 0.003 * random.normal();
    const double start = 0.01 * random.normal();
    for (int year = 2018; year <= 2026; ++year) {
      const double found = 2 * (1 + start + a_year * (year - 2018) + 0.001 * random.normal());
      text.certificates += certificate(year, with_decimals(found, 5), "");
    }
    const JudgedBook judged(text);
    const auto series = certificate_series(judged.screening(), v1, in_october, {});
    const Forecast forecast = forecast_of(series.at(0), 365);
    const std::vector<IntervalOpinion> all = opinions(text);
    const IntervalOpinion* best = recommended(all);
    ASSERT_NE(best, nullptr);
    if (!forecast.crossing) continue;
    ++crossings;
    EXPECT_LE(best->advice_days, std::max(0.0, forecast.crossing->earliest - forecast.last_day) + 1e-9)
        << text.certificates << said_of(*best) << "; " << forecast.said;
  }
  EXPECT_GT(crossings, 10U);
}

TEST(ReliabilityAdvice, NeedsTwentyResults) {
  BookText text;
  text.certificates = heading;
  for (int year = 1996; year <= 2015; ++year) text.certificates += certificate(year, "2.01");
  EXPECT_EQ(opinions(text)[4].lacks.at(0), "20 recalibrations of instruments of its kind; there are 19");
  text.certificates += certificate(2016, "2.01");
  EXPECT_EQ(opinions(text)[4].advice_days, longest_interval_days);
}

// 18 of 20 in tolerance after a year: those are the 90 % wanted. 15 of 20: -ln 0.9 / (-ln 0.75 / 365.25 d) = 133.77 d.
// By hand; among the years some have 366 days.
TEST(ReliabilityAdvice, FollowsFromTheShareInTolerance) {
  for (const auto& [every, advice] : {std::pair<int, double>{10, 365.25}, {4, 133.77}}) {
    BookText text;
    text.certificates = heading;
    for (int year = 1996; year <= 2016; ++year)
      text.certificates += certificate(year, year > 1996 && year % every == 0 ? "2.05" : "2.01");
    EXPECT_NEAR(opinions(text)[4].advice_days, advice, 0.3) << every;
  }
}

TEST(ReliabilityAdvice, CountsNoSecondCertificateOfADay) {
  BookText text;
  text.certificates = heading;
  for (int year = 1996; year <= 2015; ++year) text.certificates += certificate(year, "2.01");
  text.certificates += "again,V1,2015-01-06,2016-01-06,2,2,2.05,2.00,1\n";
  EXPECT_EQ(opinions(text)[4].lacks.at(0), "20 recalibrations of instruments of its kind; there are 19");
}

TEST(IntervalInForce, IsTheCertificatesElseTheInstruments) {
  BookText text;
  text.certificates = heading + certificate(2026, "2.01");
  text.instruments =
      "instrument,kind,principle,interval "
      "[d]\nP1,pump,,\nP2,pump,,\nV1,calibrator,volumetric,100\nV2,calibrator,volumetric,200\n";
  const JudgedBook book(text);
  EXPECT_EQ(interval_in_force(book.book(), v1, in_october), 365);
  EXPECT_EQ(interval_in_force(book.book(), v1 + 1, in_october), 200);
  EXPECT_TRUE(is_missing(interval_in_force(book.book(), 0, in_october)));
}

}  // namespace
}  // namespace driftwarden::interval_advice_test
