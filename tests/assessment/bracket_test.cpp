// SPDX-License-Identifier: MIT
#include "assessment/bracket.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::bracket_test {
namespace {

// One line of readings.csv, on pump P1 and, where it is said, of sample S1.
std::string reading(const std::string& time, const std::string& stage, const std::string& pump = "P1",
                    const std::string& sample = "", const std::string& set = "") {
  return "2026-09-21T" + time + "," + stage + "," + pump + "," + sample + ",V1,2.000," + set + "\n";
}

BookText with_pump_readings(const std::string& rows) {
  BookText text;
  text.readings = "taken,stage,pump,sample,calibrator,reading [L/min],set\n" + rows;
  return text;
}

// The bracket around a run on P1 from 08:00 to 16:00: the lines of its sets, "pre 2 3 | field 4 | post 5".
std::string bracket_of(const BookText& text) {
  const Book book = book_of(text);
  const PumpSets sets(book);
  PumpSets::Bracket bracket;
  sets.bracket(0, book.samples.started[0], book.samples.stopped[0], bracket);
  std::string lines;
  const auto add = [&](const SetRows* set) {
    if (set == nullptr) return;
    if (!lines.empty()) lines += " | ";
    lines += to_text(set->stage);
    for (const Row row : sets.rows().subspan(set->begin, set->count))
      lines += " " + std::to_string(book.readings.place[row].line);
  };
  add(bracket.pre);
  for (const SetRows* set : bracket.field) add(set);
  add(bracket.post);
  for (const SetRows* set : bracket.struck_out) {
    lines += set == bracket.struck_out.front() ? " | struck out" : "";
    lines += " " + std::to_string(book.readings.place[sets.rows()[set->begin]].line);
  }
  return lines;
}

std::string bracket_of(const std::string& rows) { return bracket_of(with_pump_readings(rows)); }

TEST(Bracket, IsTheLastPreSetBeforeAndTheFirstPostSetBehind) {
  EXPECT_EQ(bracket_of(reading("06:00", "pre") + reading("07:30", "pre") + reading("16:10", "post") +
                       reading("17:00", "post")),
            "pre 3 | post 4");
}

TEST(Bracket, TakesSetsThatTouchTheSample) {
  EXPECT_EQ(bracket_of(reading("08:00", "pre") + reading("16:00", "post")), "pre 2 | post 3");
}

TEST(Bracket, HasAllReadingsOfItsSets) {
  EXPECT_EQ(bracket_of(reading("07:30", "pre") + reading("16:12", "post") + reading("07:35", "pre") +
                       reading("16:10", "post")),
            "pre 2 4 | post 5 3");
}

TEST(Bracket, IsOfThePumpAndNoOther) {
  EXPECT_EQ(bracket_of(reading("07:30", "pre", "P2") + reading("16:10", "post", "P1")), "post 3");
}

TEST(Bracket, LeavesReadingsThatNameASampleToTheSample) {
  EXPECT_EQ(bracket_of(reading("07:30", "pre", "P1", "S1") + reading("16:10", "post", "P1")), "post 3");
}

TEST(Bracket, HasNoPreWhereThePumpWasOnlyReadLater) {
  EXPECT_EQ(bracket_of(reading("08:01", "pre") + reading("16:10", "post")), "post 3");
}

// A set of that name went on into the sample, so it was not over before it.
TEST(Bracket, HasNoPreWhereTheSetEndsAfterTheStart) {
  EXPECT_EQ(bracket_of(reading("07:30", "pre", "P1", "", "a") + reading("08:01", "pre", "P1", "", "a") +
                       reading("16:10", "post")),
            "post 4");
}

TEST(Bracket, HasNoPostWhereThePumpWasSetAgainBeforeIt) {
  EXPECT_EQ(bracket_of(reading("07:30", "pre") + reading("16:05", "pre") + reading("16:10", "post")), "pre 2");
  EXPECT_EQ(bracket_of(reading("07:30", "pre") + reading("16:00", "pre") + reading("16:10", "post")), "pre 2");
}

// S2 ran on P1, too, and has a pre set of its own: the pump was set for it.
std::string bracket_beside(const std::string& time_of_other, const std::string& rows) {
  BookText text = with_pump_readings(rows + reading(time_of_other, "pre", "", "S2"));
  text.samples += "S2,P1,2026-09-21T18:00,2026-09-21T20:00\n";
  return bracket_of(text);
}

TEST(Bracket, DoesNotReachAcrossAPreSetOfAnotherSampleOnThePump) {
  const std::string around = reading("07:30", "pre") + reading("16:10", "post");
  EXPECT_EQ(bracket_beside("07:29", around), "pre 2 | post 3");
  EXPECT_EQ(bracket_beside("07:31", around), "post 3");
  EXPECT_EQ(bracket_beside("08:00", around), "pre 2 | post 3");
  EXPECT_EQ(bracket_beside("16:00", around), "pre 2");
  EXPECT_EQ(bracket_beside("16:09", around), "pre 2");
  EXPECT_EQ(bracket_beside("16:10", around), "pre 2 | post 3");
}

TEST(Bracket, ReachesAcrossAPreSetOnAnotherPump) {
  BookText text =
      with_pump_readings(reading("07:30", "pre") + reading("16:10", "post") + reading("16:05", "pre", "", "S2"));
  text.samples += "S2,P2,2026-09-21T18:00,2026-09-21T20:00\n";
  EXPECT_EQ(bracket_of(text), "pre 2 | post 3");
}

TEST(Bracket, KeepsAPostThatCameBeforeThePumpWasSetAgain) {
  EXPECT_EQ(bracket_of(reading("07:30", "pre") + reading("16:10", "post") + reading("16:20", "pre") +
                       reading("20:00", "post")),
            "pre 2 | post 3");
}

TEST(Bracket, HasNoPostWhereThePumpWasReadBeforeTheStop) {
  EXPECT_EQ(bracket_of(reading("07:30", "pre") + reading("15:59", "post")), "pre 2");
}

TEST(Bracket, HasTheFieldSetsFromStartToStop) {
  EXPECT_EQ(bracket_of(reading("07:59", "field") + reading("08:30", "field") + reading("12:00", "field") +
                       reading("16:00", "field") + reading("16:31", "field")),
            "field 3 | field 4 | field 5");
}

// The same, struck out.
std::string struck_out(const std::string& time, const std::string& stage) {
  return "2026-09-21T" + time + "," + stage + ",P1,,V1,2.000,,yes,tube bent\n";
}

std::string bracket_with_void(const std::string& rows) {
  BookText text;
  text.readings = "taken,stage,pump,sample,calibrator,reading [L/min],set,void,note\n" + rows;
  return bracket_of(text);
}

std::string sound(const std::string& time, const std::string& stage) {
  return "2026-09-21T" + time + "," + stage + ",P1,,V1,2.000,,,\n";
}

TEST(Bracket, APostSetThatIsStruckOutGivesWayToTheNextOneAndAPreSetDoesNot) {
  EXPECT_EQ(bracket_with_void(sound("05:00", "pre") + struck_out("07:00", "pre") + struck_out("16:10", "post") +
                              struck_out("18:00", "post") + sound("20:00", "post")),
            "pre 3 | post 6 | struck out 4 5");
  // Sets that are struck out in part count.
  EXPECT_EQ(bracket_with_void(sound("05:00", "pre") + struck_out("07:00", "pre") + sound("07:01", "pre")), "pre 3 4");
}

TEST(Bracket, ASetThatIsStruckOutStandsWhereThereIsNoOther) {
  EXPECT_EQ(bracket_with_void(struck_out("07:00", "pre") + struck_out("16:10", "post")), "pre 2 | post 3");
}

TEST(Bracket, ASetThatIsStruckOutDoesNotGiveWayToOneOfAnotherUse) {
  EXPECT_EQ(bracket_with_void(struck_out("16:10", "post") + sound("18:00", "pre") + sound("20:00", "post")), "post 2");
}

TEST(Bracket, IsEmptyWithoutPumpReadingsOrWithoutAPump) {
  const Book book = book_of(BookText());
  const PumpSets sets(book);
  EXPECT_TRUE(sets.empty());
  PumpSets::Bracket bracket;
  sets.bracket(0, 0, 1, bracket);
  EXPECT_EQ(bracket.pre, nullptr);
  const Book other = book_of(with_pump_readings(reading("07:30", "pre")));
  const PumpSets of_other(other);
  of_other.bracket(no_row, other.samples.started[0], other.samples.stopped[0], bracket);
  EXPECT_EQ(bracket.pre, nullptr);
  EXPECT_EQ(bracket.post, nullptr);
}

// It might have been the post set of any sample on this pump.
TEST(Bracket, NamesAReadingOnThePumpWhoseTimeOrStageIsLost) {
  for (const std::string& row : {reading("25:00", "post"), reading("16:10", "psot")}) {
    const Book book = book_of(with_pump_readings(reading("07:30", "pre") + row + reading("07:30", "pre", "P2")));
    const PumpSets sets(book);
    PumpSets::Bracket bracket;
    sets.bracket(0, book.samples.started[0], book.samples.stopped[0], bracket);
    ASSERT_NE(bracket.problem, no_problem);
    EXPECT_EQ(book.problems[bracket.problem - 1].place.line, 3U);
    sets.bracket(1, book.samples.started[0], book.samples.stopped[0], bracket);
    EXPECT_EQ(bracket.problem, no_problem);
  }
}

std::vector<Row> rows_of(const ReadingIndex& index, Row sample) {
  std::vector<Row> rows{7};
  index.of_sample(sample, rows);
  return rows;
}

TEST(ReadingIndex, FindsTheReadingsThatNameASampleInFileOrder) {
  BookText text;
  text.samples =
      "sample,pump,started,stopped\n"
      "S1,P1,2026-09-21T08:00,2026-09-21T16:00\n"
      "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n"
      "S3,P2,2026-09-22T08:00,2026-09-22T16:00\n";
  text.readings =
      "taken,stage,sample,pump,calibrator,reading [L/min]\n"
      "2026-09-21T16:10,post,S1,,V1,2\n"
      "2026-09-22T07:00,pre,S3,,V1,2\n"
      "2026-09-21T07:00,pre,,P1,V1,2\n"
      "2026-09-21T07:00,pre,S1,,V1,2\n";
  const Book book = book_of(text);
  const ReadingIndex index(book);
  EXPECT_EQ(rows_of(index, 0), (std::vector<Row>{0, 3}));
  EXPECT_EQ(rows_of(index, 1), std::vector<Row>{});
  EXPECT_EQ(rows_of(index, 2), std::vector<Row>{1});
}

TEST(ReadingIndex, FindsThemInABookInTheOrderOfItsSamplesAndInAnyOther) {
  BookText text;
  text.samples = "sample,pump,started,stopped\n";
  for (const char* sample : {"S1", "S2", "S3", "S4"}) {
    text.samples += sample + std::string(",P1,2026-09-21T08:00,2026-09-21T16:00\n");
  }
  const auto with = [&text](const std::string& rows) {
    BookText book = text;
    book.readings = "taken,stage,sample,pump,calibrator,reading [L/min]\n" + rows;
    return book_of(book);
  };
  const std::string s2 = "2026-09-21T07:00,pre,S2,,V1,2\n";
  const std::string s4 = "2026-09-21T07:00,pre,S4,,V1,2\n";
  const std::string pump = "2026-09-21T07:00,pre,,P1,V1,2\n";
  const Book in_order = with(s2 + s2 + s4);
  EXPECT_EQ(rows_of(ReadingIndex(in_order), 0), std::vector<Row>{});
  EXPECT_EQ(rows_of(ReadingIndex(in_order), 1), (std::vector<Row>{0, 1}));
  EXPECT_EQ(rows_of(ReadingIndex(in_order), 2), std::vector<Row>{});
  EXPECT_EQ(rows_of(ReadingIndex(in_order), 3), std::vector<Row>{2});
  const Book with_a_pump = with(s2 + pump + s2 + s4);
  EXPECT_EQ(rows_of(ReadingIndex(with_a_pump), 1), (std::vector<Row>{0, 2}));
  EXPECT_EQ(rows_of(ReadingIndex(with_a_pump), 3), std::vector<Row>{3});
  const Book turned = with(s4 + s2 + s2);
  EXPECT_EQ(rows_of(ReadingIndex(turned), 1), (std::vector<Row>{1, 2}));
  EXPECT_EQ(rows_of(ReadingIndex(turned), 3), std::vector<Row>{0});
}

TEST(ReadingIndex, IsEmptyWhereNoReadingNamesASample) {
  BookText text;
  text.readings = "taken,stage,pump,calibrator,reading [L/min]\n2026-09-21T07:00,pre,P1,V1,2\n";
  const Book book = book_of(text);
  EXPECT_TRUE(rows_of(ReadingIndex(book), 0).empty());
}

TEST(Bracket, OfTheNextPumpIsOfItsOwnSets) {
  const Book book = book_of(with_pump_readings(reading("07:00", "pre") + reading("16:05", "post") +
                                               reading("07:30", "pre", "P2") + reading("16:10", "post", "P2")));
  const PumpSets sets(book);
  PumpSets::Bracket bracket;
  sets.bracket(1, book.samples.started[0], book.samples.stopped[0], bracket);
  ASSERT_NE(bracket.pre, nullptr);
  ASSERT_NE(bracket.post, nullptr);
  EXPECT_EQ(book.readings.place[sets.rows()[bracket.pre->begin]].line, 4U);
  EXPECT_EQ(book.readings.place[sets.rows()[bracket.post->begin]].line, 5U);
}

TEST(Bracket, KeepsNothingOfTheSampleBefore) {
  BookText text;
  text.readings = "taken,stage,pump,sample,calibrator,reading [L/min],set,void,note\n" + sound("07:30", "pre") +
                  sound("12:00", "field") + struck_out("16:10", "post") + sound("18:00", "post") +
                  "2026-09-21T07:00,pre,,,V1,2,,,\n";  // of no sample and no pump
  const Book book = book_of(text);
  const PumpSets sets(book);
  PumpSets::Bracket bracket;
  for (int twice = 0; twice < 2; ++twice) {
    sets.bracket(0, book.samples.started[0], book.samples.stopped[0], bracket);
    EXPECT_EQ(bracket.field.size(), 1U);
    EXPECT_EQ(bracket.struck_out.size(), 1U);
  }
  sets.bracket(1, book.samples.started[0], book.samples.stopped[0], bracket);
  EXPECT_TRUE(bracket.field.empty());
  EXPECT_TRUE(bracket.struck_out.empty());
}

TEST(Bracket, KeepsAPostThatWasReadAtTheTimeThePumpWasSetAgain) {
  EXPECT_EQ(bracket_of(reading("07:30", "pre") + reading("16:10", "pre") + reading("16:10", "post")), "pre 2 | post 4");
}

TEST(PumpSets, AreAllOfOnePumpAndNoneOfAnother) {
  const Book book =
      book_of(with_pump_readings(reading("07:30", "pre") + reading("12:00", "field") + reading("16:10", "post") +
                                 reading("07:35", "pre", "P2") + reading("16:15", "post", "P2")));
  const PumpSets sets(book);
  EXPECT_EQ(sets.of_pump(0).size(), 3U);
  EXPECT_EQ(sets.of_pump(1).size(), 2U);
  EXPECT_EQ(sets.of_pump(2).size(), 0U);
  EXPECT_EQ(book.readings.place[sets.rows()[sets.of_pump(1)[0].begin]].line, 5U);
}

}  // namespace
}  // namespace driftwarden::bracket_test
