// SPDX-License-Identifier: MIT
#include "assessment/reading_set.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::reading_set_test {
namespace {

constexpr const char* heading = "taken,stage,sample,calibrator,reading [L/min],set,void,note\n";

BookText with_readings(const std::string& rows, const std::string& columns = heading) {
  BookText text;
  text.readings = columns + rows;
  return text;
}

void expect_same(double a, double b) { EXPECT_TRUE(a == b || (is_missing(a) && is_missing(b))) << a << " and " << b; }

// What a set tells of other samples is the same, whether its other figures are worked out or not.
void expect_same_flow(const ReadingSet& a, const ReadingSet& b) {
  EXPECT_EQ(a.flow.n, b.flow.n);
  expect_same(a.flow.mean, b.flow.mean);
  expect_same(a.flow.s, b.flow.s);
  EXPECT_EQ(a.voided, b.voided);
  EXPECT_EQ(a.problem, b.problem);
  EXPECT_EQ(a.rows.last, b.rows.last);
}

// All readings of a book, split into sets.
struct SplitBook {
  explicit SplitBook(const BookText& text) : book(book_of(text)), knowledge(book) {
    for (Row row = 0; row < book.readings.size(); ++row) rows.push_back(row);
    SetSplitter().split(book.readings, rows, sets);
  }
  ReadingSet read(std::size_t set) const {
    SetReader reader(book, knowledge, {});
    const std::span<const Row> own = std::span(rows).subspan(sets[set].begin, sets[set].count);
    const ReadingSet read = reader.read(own, sets[set]);
    expect_same_flow(reader.read_flow(own, sets[set]), read);
    return read;
  }
  // The lines of readings.csv that each set is made of: "2 3 | 4".
  std::string lines() const {
    std::string text;
    for (const SetRows& set : sets) {
      if (!text.empty()) text += " | ";
      for (std::uint32_t i = set.begin; i < set.begin + set.count; ++i) {
        if (i > set.begin) text += ' ';
        text += std::to_string(book.readings.place[rows[i]].line);
      }
    }
    return text;
  }

  Book book;
  CalibratorKnowledge knowledge;
  std::vector<Row> rows;
  std::vector<SetRows> sets;
};

std::string set_lines(const std::string& rows) { return SplitBook(with_readings(rows)).lines(); }

TEST(SetSplitter, KeepsReadingsThirtyMinutesApartTogether) {
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,V1,2,,,\n"
                      "2026-09-21T07:30,pre,S1,V1,2,,,\n"
                      "2026-09-21T08:00,pre,S1,V1,2,,,\n"),
            "2 3 4");
}

TEST(SetSplitter, BeginsASetMoreThanThirtyMinutesLater) {
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,V1,2,,,\n"
                      "2026-09-21T07:30:01,pre,S1,V1,2,,,\n"),
            "2 | 3");
}

TEST(SetSplitter, PartsStagesAndCalibrators) {
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,V1,2,,,\n"
                      "2026-09-21T07:01,pre,S1,V2,2,,,\n"
                      "2026-09-21T07:02,field,S1,V1,2,,,\n"
                      "2026-09-21T07:03,post,S1,V1,2,,,\n"),
            "2 | 3 | 4 | 5");
}

TEST(SetSplitter, PutsStagesAndTimesInOrderWhateverTheOrderOfTheRows) {
  EXPECT_EQ(set_lines("2026-09-21T16:10,post,S1,V1,2,,,\n"
                      "2026-09-21T07:02,pre,S1,V1,2,,,\n"
                      "2026-09-21T12:00,field,S1,V1,2,,,\n"
                      "2026-09-21T07:00,pre,S1,V1,2,,,\n"),
            "5 3 | 4 | 2");
}

TEST(SetSplitter, KeepsInterleavedCalibratorsApart) {
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,V1,2,,,\n"
                      "2026-09-21T07:01,pre,S1,V2,2,,,\n"
                      "2026-09-21T07:02,pre,S1,V1,2,,,\n"
                      "2026-09-21T07:03,pre,S1,V2,2,,,\n"),
            "2 4 | 3 5");
}

TEST(SetSplitter, GathersReadingsUnderOneSetNameHoweverFarApart) {
  EXPECT_EQ(set_lines("2026-09-21T05:00,pre,S1,V1,2,morning,,\n"
                      "2026-09-21T07:00,pre,S1,V1,2,morning,,\n"),
            "2 3");
}

TEST(SetSplitter, PartsReadingsUnderTwoSetNamesHoweverNear) {
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,V1,2,a,,\n"
                      "2026-09-21T07:01,pre,S1,V1,2,b,,\n"
                      "2026-09-21T07:02,pre,S1,V1,2,a,,\n"
                      "2026-09-21T07:03,pre,S1,V1,2,,,\n"),
            "2 4 | 3 | 5");
}

TEST(SetSplitter, KeepsAVoidReadingInItsSet) {
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,V1,2,,,\n"
                      "2026-09-21T07:20,pre,S1,V1,9,,yes,knocked\n"
                      "2026-09-21T07:40,pre,S1,V1,2,,,\n"),
            "2 3 4");
}

TEST(SetSplitter, LeavesReadingsWithoutATimeBehindTheSets) {
  const SplitBook split(with_readings("noon,pre,S1,V1,2,,,\n2026-09-21T07:00,pre,S1,V1,2,,,\n"));
  EXPECT_EQ(split.lines(), "3");
  ASSERT_EQ(split.rows.size(), 2U);
  EXPECT_EQ(split.rows[1], 0U);
}

TEST(SetSplitter, PutsAReadingWhoseCalibratorIsLostIntoTheSetOfItsTime) {
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,V1,2,,,\n"
                      "2026-09-21T07:01,pre,S1,W1,2,,,\n"
                      "2026-09-21T07:02,pre,S1,V1,2,,,\n"),
            "2 3 4");
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,W1,2,,,\n"
                      "2026-09-21T07:01,pre,S1,V1,2,,,\n"),
            "2 3");
}

TEST(SetSplitter, SaysWhenASetBeganAndEnded) {
  const SplitBook split(with_readings("2026-09-21T07:05,pre,S1,V1,2,,,\n2026-09-21T07:00,pre,S1,V1,2,,,\n"));
  ASSERT_EQ(split.sets.size(), 1U);
  EXPECT_EQ(split.sets[0].last - split.sets[0].first, 300);
}

// own input: mean and s of five readings, computed with Python 3.11 by tests/support/computed_corrections.py.
TEST(ReadingSet, HasTheMeanAndSpreadOfItsReadings) {
  const SplitBook split(
      with_readings("2026-09-21T07:00,pre,S1,V1,2.013,,,\n"
                    "2026-09-21T07:01,pre,S1,V1,2.008,,,\n"
                    "2026-09-21T07:02,pre,S1,V1,2.011,,,\n"
                    "2026-09-21T07:03,pre,S1,V1,2.015,,,\n"
                    "2026-09-21T07:04,pre,S1,V1,2.009,,,\n"));
  const ReadingSet set = split.read(0);
  EXPECT_EQ(set.flow.n, 5U);
  EXPECT_NEAR(set.flow.mean, 2.0112, 1e-12);
  EXPECT_NEAR(set.flow.s, 0.00286356, 1e-8);  // divisor n - 1
  EXPECT_NEAR(set.flow.range(), 0.007, 1e-12);
}

TEST(ReadingSet, LeavesVoidReadingsOutOfTheMeanAndCountsThem) {
  const SplitBook split(
      with_readings("2026-09-21T07:00,pre,S1,V1,2.00,,no,\n"
                    "2026-09-21T07:01,pre,S1,V1,9.00,,yes,knocked\n"
                    "2026-09-21T07:02,pre,S1,V1,2.02,,,\n"));
  const ReadingSet set = split.read(0);
  EXPECT_EQ(set.flow.n, 2U);
  EXPECT_NEAR(set.flow.mean, 2.01, 1e-12);
  EXPECT_EQ(set.voided, 1U);
  EXPECT_EQ(set.problem, no_problem);
}

TEST(ReadingSet, HasNoMeanWithARejectedReadingAndNamesTheFault) {
  const SplitBook split(with_readings("2026-09-21T07:00,pre,S1,V1,2.00,,,\n2026-09-21T07:01,pre,S1,V1,2.O1,,,\n"));
  const ReadingSet set = split.read(0);
  EXPECT_EQ(set.flow.n, 1U);
  EXPECT_TRUE(is_missing(set.flow.mean));
  ASSERT_NE(set.problem, no_problem);
  EXPECT_EQ(split.book.problems[set.problem - 1].place, (Place{"readings.csv", 3, 28}));
}

TEST(ReadingSet, OfVoidReadingsAloneHasNoFlow) {
  const SplitBook split(with_readings("2026-09-21T07:00,pre,S1,V1,2.00,,yes,knocked\n"));
  const ReadingSet set = split.read(0);
  EXPECT_EQ(set.flow.n, 0U);
  EXPECT_TRUE(is_missing(set.flow.mean));
  EXPECT_TRUE(set.is_void());
}

// C1 shows 1 % too much at 2.0 L/min; C2, from the 22nd on, 4 % too much.
BookText certificate_changes_at_midnight() {
  BookText text = with_readings(
      "2026-09-21T23:50,pre,S1,V1,2.02,,,\n"
      "2026-09-22T00:10,pre,S1,V1,2.08,,,\n");
  text.samples = "sample,pump,started,stopped\nS1,P1,2026-09-22T01:00,2026-09-22T09:00\n";
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-09-01,2,2,2.02\n"
      "C2,V1,2026-09-22,,2,2,2.08\n";
  return text;
}

TEST(ReadingSet, CorrectsEachReadingByTheCertificateOfItsOwnDay) {
  const ReadingSet set = SplitBook(certificate_changes_at_midnight()).read(0);
  EXPECT_NEAR(set.flow.mean, 2.0, 1e-12);
  EXPECT_NEAR(set.flow.s, 0.0, 1e-12);
  EXPECT_EQ(set.certificate, 1);
}

// Twenty days past the due date of C1 on the 21st; what C2 says the day after does not undo that.
TEST(ReadingSet, IsOverdueByTheWorstOfTheCertificatesItWasReadUnder) {
  const ReadingSet set = SplitBook(certificate_changes_at_midnight()).read(0);
  EXPECT_EQ(set.overdue_min, 20 * 1440);
}

TEST(ReadingSet, NamesTheFaultOfTheCertificateOfAnyOfItsDays) {
  BookText text = certificate_changes_at_midnight();
  text.certificates.replace(text.certificates.find("2,2,2.02"), 8, "2,2,2.O2");
  const SplitBook split(text);
  const ReadingSet set = split.read(0);
  ASSERT_NE(set.problem, no_problem);
  EXPECT_EQ(split.book.problems[set.problem - 1].place.file, "certificates.csv");
}

TEST(ReadingSet, LacksACertificateWhereAnyReadingDoes) {
  BookText text = certificate_changes_at_midnight();
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C2,V1,2026-09-22,2,2,2.08\n";
  const ReadingSet set = SplitBook(text).read(0);
  EXPECT_TRUE(set.lacks_certificate);
  EXPECT_NEAR(set.flow.mean, (2.02 + 2.0) / 2, 1e-12);
}

// Nothing leans on a reading that is struck out: a set over midnight is as good as the readings that are left in it.
TEST(ReadingSet, AsksNothingOfTheCertificateOfAStruckOutReading) {
  BookText text = certificate_changes_at_midnight();
  text.readings =
      std::string(heading) + "2026-09-21T23:50,pre,S1,V1,2.02,,yes,knocked\n2026-09-22T00:10,pre,S1,V1,2.08,,,\n";
  EXPECT_TRUE(is_missing(SplitBook(text).read(0).overdue_min));  // C2 has no due day
  text.readings =
      std::string(heading) + "2026-09-21T23:50,pre,S1,V1,2.02,,,\n2026-09-22T00:10,pre,S1,V1,2.08,,yes,knocked\n";
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-09-21,2,2,2.02\n";
  EXPECT_EQ(SplitBook(text).read(0).overdue_min, 0);
  text.readings = std::string(heading) + "2025-09-21T23:50,pre,S1,V1,2.02,,yes,knocked\n";
  EXPECT_FALSE(SplitBook(text).read(0).lacks_certificate);
}

TEST(ReadingSet, DayOfACertificateIsTheBooksDay) {
  BookText text = certificate_changes_at_midnight();
  text.settings = "title = \"Quarry\"\ntime_zone = \"America/Denver\"\n";
  text.readings = std::string(heading) + "2026-09-22T05:59Z,pre,S1,V1,2.02,,,\n";  // still the 21st there
  EXPECT_EQ(SplitBook(text).read(0).certificate, 0);
  text.readings = std::string(heading) + "2026-09-22T06:00Z,pre,S1,V1,2.08,,,\n";
  EXPECT_EQ(SplitBook(text).read(0).certificate, 1);
}

TEST(ReadingSet, IsOverdueFromTheDayAfterItsDueDay) {
  BookText text = certificate_changes_at_midnight();
  const auto overdue_on = [&](const std::string& day) {
    text.readings = heading + day + "T12:00,pre,S1,V1,2.02,,,\n";
    return SplitBook(text).read(0).overdue_min;
  };
  EXPECT_EQ(overdue_on("2026-08-31"), -1440);
  EXPECT_EQ(overdue_on("2026-09-01"), 0);
  EXPECT_EQ(overdue_on("2026-09-02"), 1440);
}

BookText with_range() {
  BookText text;
  text.instruments =
      "instrument,kind,principle,low [L/min],high [L/min]\n"
      "P1,pump,,,\n"
      "V1,calibrator,volumetric,1.0,2.0\n"
      "V2,calibrator,volumetric,,\n";
  return text;
}

TEST(ReadingSet, IsBeyondTheCalibratorsRangeByItsFarthestReading) {
  BookText text = with_range();
  const auto beyond = [&](const std::string& first, const std::string& second) {
    text.readings = std::string(heading) + "2026-09-21T07:00,pre,S1,V1," + first + ",,,\n2026-09-21T07:01,pre,S1,V1," +
                    second + ",,,\n";
    return SplitBook(text).read(0).beyond_range.ratio;
  };
  EXPECT_EQ(beyond("1.0", "2.0"), 0);
  EXPECT_NEAR(beyond("2.1", "1.5"), 0.05, 1e-12);
  EXPECT_NEAR(beyond("0.8", "2.1"), 0.2, 1e-12);
}

TEST(BeyondRange, IsRelativeToTheNearerEndAndAlsoADifference) {
  Instrument calibrator;
  calibrator.low_l_min = 0.5;
  calibrator.high_l_min = 2.0;
  EXPECT_NEAR(beyond_range(calibrator, 2.1).ratio, 0.05, 1e-12);
  EXPECT_NEAR(beyond_range(calibrator, 2.1).l_min, 0.1, 1e-12);
  EXPECT_NEAR(beyond_range(calibrator, 0.4).ratio, 0.2, 1e-12);
  EXPECT_NEAR(beyond_range(calibrator, 0.4).l_min, 0.1, 1e-12);
  EXPECT_EQ(beyond_range(calibrator, 0.5).ratio, 0);
  EXPECT_EQ(beyond_range(calibrator, 2.0).l_min, 0);
}

// input: a flow below every range.
TEST(BeyondRange, OfOneEndKnowsThatEnd) {
  Instrument calibrator;
  calibrator.high_l_min = 2.0;
  EXPECT_EQ(beyond_range(calibrator, 0.001).ratio, 0);
  EXPECT_NEAR(beyond_range(calibrator, 3.0).ratio, 0.5, 1e-12);
}

TEST(ReadingSet, KnowsNoRangeWhereNobodySaidOne) {
  BookText text = with_range();
  text.readings = std::string(heading) + "2026-09-21T07:00,pre,S1,V2,9,,,\n";
  EXPECT_TRUE(is_missing(SplitBook(text).read(0).beyond_range.ratio));
  EXPECT_TRUE(is_missing(SplitBook(text).read(0).beyond_range.l_min));
}

TEST(ReadingSet, HasTheMeanConditionsOfTheReadingsThatSay) {
  const SplitBook split(
      with_readings("2026-09-21T07:00,pre,S1,V1,2,20,100\n"
                    "2026-09-21T07:01,pre,S1,V1,2,22,\n"
                    "2026-09-21T07:02,pre,S1,V1,2,,98\n",
                    "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n"));
  const ReadingSet set = split.read(0);
  EXPECT_NEAR(set.temperature_k, 294.15, 1e-9);
  EXPECT_NEAR(set.pressure_kpa, 99, 1e-12);
  EXPECT_FALSE(set.has_altitude_pressure);
}

// own input: US Standard Atmosphere 1976, equation 33a, 1500 m; computed with Python 3.11 by
// tests/support/computed_corrections.py.
TEST(ReadingSet, SaysThatItsPressureIsThatOfTheAltitude) {
  BookText text = with_readings("2026-09-21T07:00,pre,S1,V1,2,,,\n");
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  const ReadingSet set = SplitBook(text).read(0);
  EXPECT_TRUE(set.has_altitude_pressure);
  EXPECT_NEAR(set.pressure_kpa, 84.556, 0.5e-3);
}

TEST(ReadingSet, SaysWhatAFlowLacks) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,scale temperature [°C],scale pressure [kPa]\n"
      "P1,pump,,,\n"
      "V1,calibrator,rotameter,20,101.325\n";
  text.certificates.clear();
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n"
      "2026-09-21T07:00,pre,S1,V1,2,20,\n";
  const ReadingSet set = SplitBook(text).read(0);
  EXPECT_EQ(set.lack, CorrectedReading::Lack::pressure);
  EXPECT_TRUE(is_missing(set.flow.mean));
  EXPECT_EQ(set.flow.n, 1U);
  EXPECT_EQ(set.indicated_l_min, 2.0);
}

TEST(ReadingSet, SaysThatAReadingLiesOutsideTheCertificatesPoints) {
  EXPECT_FALSE(SplitBook(with_readings("2026-09-21T07:00,pre,S1,V1,2,,,\n")).read(0).is_outside_certificate);
  EXPECT_TRUE(SplitBook(with_readings("2026-09-21T07:00,pre,S1,V1,2.1,,,\n")).read(0).is_outside_certificate);
}

// With its steps or without, a set is worked out by the same code; void readings take no step.
TEST(ReadingSet, KeepsItsStepsWhereAsked) {
  const SplitBook split(
      with_readings("2026-09-21T07:00,pre,S1,V1,2.0,,,\n"
                    "2026-09-21T07:01,pre,S1,V1,9,,yes,hose slipped\n"
                    "2026-09-21T07:02,pre,S1,V1,2.1,,,\n"));
  std::vector<ReadingStep> steps;
  SetReader reader(split.book, split.knowledge, {});
  const ReadingSet with_steps = reader.read(split.rows, split.sets[0], steps);
  EXPECT_EQ(with_steps.flow.mean, split.read(0).flow.mean);
  ASSERT_EQ(steps.size(), 2U);
  EXPECT_EQ(steps[0].reading, split.rows[0]);
  EXPECT_EQ(steps[1].reading, split.rows[2]);
  EXPECT_EQ(steps[1].certificate, with_steps.certificate);
  EXPECT_EQ(steps[1].corrected.indicated_l_min, 2.1);
  EXPECT_EQ((steps[0].corrected.actual_l_min + steps[1].corrected.actual_l_min) / 2, with_steps.flow.mean);
}

Row row_of_instrument(const Book& book, std::string_view name) {
  for (Row row = 0; row < book.instruments.size(); ++row) {
    if (book.instruments[row].name == name) return row;
  }
  return no_row;
}

TEST(SetSplitter, PartsStagesOfOneCalibratorHoweverNear) {
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,V1,2,,,\n2026-09-21T07:01,post,S1,V1,2,,,\n"), "2 | 3");
}

// In the order of the rows, and out of it.
TEST(SetSplitter, ASetIsOfTheCalibratorThatAnyOfItsReadingsNames) {
  for (const char* later : {"", "2026-09-21T06:50,pre,S1,V1,2,,,\n"}) {
    for (const char* first : {"W1", "V1"}) {
      const std::string second = first == std::string("W1") ? "V1" : "W1";
      const SplitBook split(with_readings("2026-09-21T07:00,pre,S1," + std::string(first) +
                                          ",2,,,\n2026-09-21T07:01,pre,S1," + second + ",2,,,\n" + later));
      ASSERT_EQ(split.sets.size(), 1U);
      EXPECT_EQ(split.sets[0].calibrator, row_of_instrument(split.book, "V1")) << first << later;
    }
  }
  const SplitBook lost_first(with_readings("2026-09-21T07:01,pre,S1,V1,2,,,\n2026-09-21T07:00,pre,S1,W1,2,,,\n"));
  EXPECT_EQ(lost_first.sets[0].calibrator, row_of_instrument(lost_first.book, "V1"));
}

TEST(SetSplitter, GathersASetNameWhateverTheOrderOfTheRows) {
  EXPECT_EQ(set_lines("2026-09-21T07:00,pre,S1,V1,2,morning,,\n2026-09-21T05:00,pre,S1,V1,2,morning,,\n"), "3 2");
  EXPECT_EQ(set_lines("2026-09-21T07:30,pre,S1,V1,2,,,\n2026-09-21T07:00,pre,S1,V1,2,,,\n"), "3 2");
}

TEST(SetSplitter, PartsOneSetNameByStageWhateverTheOrderOfTheRows) {
  EXPECT_EQ(set_lines("2026-09-21T12:00,field,S1,V1,2,a,,\n2026-09-21T07:00,pre,S1,V1,2,a,,\n"), "3 | 2");
}

TEST(SetSplitter, LeavesReadingsWithoutATimeBehindAllSets) {
  const SplitBook split(
      with_readings("noon,pre,S1,V1,2,,,\n2026-09-21T07:00,pre,S1,V1,2,,,\n2026-09-21T09:00,pre,S1,V1,2,,,\n"
                    "2026-09-21T12:00,field,S1,V1,2,,,\n"));
  EXPECT_EQ(split.lines(), "3 | 4 | 5");
  EXPECT_EQ(split.rows.back(), 0U);
}

TEST(BeyondRange, OfALowEndAloneKnowsThatEnd) {
  Instrument calibrator;
  calibrator.low_l_min = 0.5;
  EXPECT_NEAR(beyond_range(calibrator, 0.4).ratio, 0.2, 1e-12);
  EXPECT_EQ(beyond_range(calibrator, 3.0).ratio, 0);
}

TEST(ReadingSet, IsBeyondTheRangeAlsoByADifference) {
  BookText text = with_range();
  text.readings = std::string(heading) + "2026-09-21T07:00,pre,S1,V1,0.8,,,\n2026-09-21T07:01,pre,S1,V1,2.3,,,\n";
  EXPECT_NEAR(SplitBook(text).read(0).beyond_range.l_min, 0.3, 1e-12);
}

TEST(ReadingSet, LacksNoCertificateUnderTheBooksFirst) {
  EXPECT_FALSE(SplitBook(with_readings("2026-09-21T07:00,pre,S1,V1,2,,,\n")).read(0).lacks_certificate);
}

// derived: none, one of two, and one of one. A reader keeps nothing of the set before.
TEST(ReadingSet, SaysHowManyOfItsReadingsHaveThePressureOfTheAltitude) {
  BookText text = with_readings(
      "2026-09-21T07:00,pre,S1,V1,2,\n2026-09-21T09:00,pre,S1,V1,2,98\n2026-09-21T09:01,pre,S1,V1,2,\n"
      "2026-09-21T11:00,pre,S1,V1,2,98\n",
      "taken,stage,sample,calibrator,reading [L/min],pressure [kPa]\n");
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  const SplitBook split(text);
  ASSERT_EQ(split.sets.size(), 3U);
  SetReader reader(split.book, split.knowledge, {});
  const auto share = [&](std::size_t set) {
    return reader.read(std::span(split.rows).subspan(split.sets[set].begin, split.sets[set].count), split.sets[set])
        .altitude_share;
  };
  EXPECT_EQ(share(0), 1);
  EXPECT_EQ(share(1), 0.5);
  EXPECT_EQ(share(2), 0);
  EXPECT_EQ(SplitBook(with_readings("2026-09-21T07:00,pre,S1,V1,2,,yes,knocked\n")).read(0).altitude_share, 0);
}

}  // namespace
}  // namespace driftwarden::reading_set_test
