// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/whole_book.hpp"

namespace driftwarden::readings_file_test {
namespace {

const std::string heading = "taken,stage,sample,calibrator,reading [L/min]\n";
const std::string sound = "2026-05-01T07:50,pre,S-1,VOL-1,2.0\n";

Book book_with(const std::string& readings) { return WrittenBook().file("readings.csv", readings).read(); }

std::string told_of(const std::string& readings) { return told(book_with(readings).problems); }

const std::string& text(const Book& book, const Column<TextId>& column, Row row) {
  return book.texts.text(field(column, row, TextId{0}));
}

// A display that was blank or beyond its range: kept on the page, without a figure.
TEST(ReadingsFile, KeepsAStruckOutReadingWithoutAFigure) {
  const std::string with_void = "taken,stage,sample,calibrator,reading [L/min],void,note\n";
  const Book book = book_with(with_void +
                              "2026-05-01T07:50,pre,S-1,VOL-1,,yes,display blank\n"
                              "2026-05-01T07:51,pre,S-1,VOL-1,<2,yes,below its range\n"
                              "2026-05-01T07:52,pre,S-1,VOL-1,-5,yes,a leak\n"
                              "2026-05-01T07:53,pre,S-1,VOL-1,2.5,yes,a leak\n"
                              "2026-05-01T07:54,pre,S-1,VOL-1,2.0,,\n");
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.readings.size(), 5U);
  for (Row row = 0; row < 3; ++row) EXPECT_TRUE(is_missing(book.readings.indicated_l_min[row])) << row;
  EXPECT_DOUBLE_EQ(book.readings.indicated_l_min[3], 2.5);
  EXPECT_EQ(book.readings.flags[1], reading_is_void);
  EXPECT_EQ(
      told_of(with_void + "2026-05-01T07:51,pre,S-1,VOL-1,<2,no,\n"),
      "readings.csv:2:32: error: '<2' is not a number; write digits with '.' as decimal sign; the unit belongs in "
      "the heading [cell/not-a-number]\n");
}

// Only what a soap film makes moist is corrected for it.
TEST(ReadingsFile, NeedsAHumidityOnlyAtCalibratorsThatAreCorrectedForIt) {
  const Book book = WrittenBook()
                        .file("instruments.csv",
                              "instrument,kind,principle\nPUMP-1,pump,\nVOL-1,calibrator,volumetric\n"
                              "FILM-1,calibrator,bubble\n")
                        .file("readings.csv",
                              "taken,stage,sample,calibrator,reading [L/min],humidity [%]\n"
                              "2026-05-01T07:50,pre,S-1,VOL-1,2.0,moist\n"
                              "2026-05-01T07:51,pre,S-1,FILM-1,2.0,moist\n"
                              "2026-05-01T07:52,pre,S-1,VOL-1,2.0,45\n")
                        .read();
  EXPECT_EQ(book.readings.flags[0], 0);
  EXPECT_EQ(book.readings.flags[1], reading_is_rejected);
  EXPECT_EQ(book.readings.humidity[2], 0.45);
  const std::string said = told(book.problems);
  EXPECT_NE(said.find("readings.csv:2:36: remark: 'moist' is not a number"), std::string::npos) << said;
  EXPECT_NE(said.find("readings.csv:3:37: error: 'moist' is not a number"), std::string::npos) << said;
}

TEST(ReadingsFile, FillsEveryFieldOfAReading) {
  const Book book = book_with(
      "taken,stage,pump,sample,calibrator,reading [cc/min],temperature [°C],pressure [mbar],humidity [%],replicate,set,"
      "sampler,by,void,note\n"
      "2026-05-01T07:50,PRE,PUMP-1,S-1,VOL-1,1950,20,850,45,3,morning,our-impactor,technician 1,yes,\"a bubble, "
      "burst\"\n"
      "2026-05-01T16:10,post,,S-1,VOL-1,1960,,,,,,,,no,\n");
  EXPECT_EQ(told(book.problems), "");
  const ReadingTable& t = book.readings;
  ASSERT_EQ(t.size(), 2U);
  EXPECT_EQ(t.taken[0], 1777622400 - 600);
  EXPECT_EQ(t.stage[0], Stage::pre);
  EXPECT_EQ(t.stage[1], Stage::post);
  EXPECT_EQ(t.pump[0], 0U);
  EXPECT_EQ(t.pump[1], no_row);
  EXPECT_EQ(t.sample[0], 0U);
  EXPECT_EQ(t.calibrator[0], 1U);
  EXPECT_EQ(t.indicated_l_min[0], 1.95);
  EXPECT_DOUBLE_EQ(t.temperature_k[0], 293.15);
  EXPECT_EQ(t.pressure_kpa[0], 85.0);
  EXPECT_EQ(t.humidity[0], 0.45);
  EXPECT_EQ(text(book, t.replicate, 0), "3");
  EXPECT_EQ(text(book, t.set, 0), "morning");
  EXPECT_EQ(text(book, t.sampler, 0), "our-impactor");
  EXPECT_EQ(text(book, t.by, 0), "technician 1");
  EXPECT_EQ(text(book, t.note, 0), "a bubble, burst");
  EXPECT_EQ(t.flags[0], reading_is_void);
  EXPECT_EQ(t.flags[1], 0);
  EXPECT_TRUE(is_missing(t.temperature_k[1]));
  EXPECT_TRUE(is_missing(t.pressure_kpa[1]));
  EXPECT_TRUE(is_missing(t.humidity[1]));
  EXPECT_TRUE(t.problem.empty());
}

TEST(ReadingsFile, KeepsNoColumnThatNobodyWrote) {
  const Book book = book_with(heading + sound);
  EXPECT_TRUE(book.readings.pump.empty());
  EXPECT_TRUE(book.readings.temperature_k.empty());
  EXPECT_TRUE(book.readings.note.empty());
}

TEST(ReadingsFile, ReadsAColumnThatOnlyAnotherFileHasAsMissing) {
  const Book book = WrittenBook()
                        .without("readings.csv")
                        .file("readings/a.csv", heading + sound)
                        .file("readings/b.csv",
                              "taken,stage,pump,calibrator,reading [L/min],temperature [°C],by,Lamp\n"
                              "2026-05-01T16:10,post,PUMP-1,VOL-1,2.1,21,t 1,on\n")
                        .file("readings/c.csv", heading + sound)
                        .read();
  const ReadingTable& t = book.readings;
  ASSERT_EQ(t.size(), 3U);
  EXPECT_EQ(t.sample[1], no_row);
  EXPECT_EQ(t.pump[0], no_row);
  EXPECT_EQ(t.pump[1], 0U);
  EXPECT_EQ(t.pump[2], no_row);
  EXPECT_TRUE(is_missing(t.temperature_k[0]));
  EXPECT_DOUBLE_EQ(t.temperature_k[1], 294.15);
  EXPECT_TRUE(is_missing(t.temperature_k[2]));
  EXPECT_EQ(text(book, t.by, 0), "");
  EXPECT_EQ(text(book, t.by, 1), "t 1");
  EXPECT_EQ(text(book, t.note, 0), "");
  EXPECT_EQ(text(book, t.note, 1), "Lamp: on");
  EXPECT_EQ(book.place_text(book.files.readings, t.place[1]), "readings/b.csv:2");
  EXPECT_EQ(book.place_text(book.files.readings, t.place[2]), "readings/c.csv:2");
}

TEST(ReadingsFile, TellsEveryFault) {
  EXPECT_EQ(
      told_of("taken,stage,pump,sample,calibrator,reading [L/min],pressure [kPa],humidity [%],void,note\n"
              ",,,,,,,,,\"\"\n"
              "2026-05-01T24:10,psot,PUMP-l,S-l,VOL-l,1.9O6,1,400,maybe,\n"
              "2026-05-01T07:50,pre,VOL-1,,PUMP-1,2.0,,,,\n"
              "2026-05-01T07:50,pre,PUMP-1,S-1,VOL-1,2.0\n"
              "2026-05-01T07:50,pre,,S-1,VOL-1,2.0,,,yes,\n"),
      "readings.csv:2:1: error: the cell under 'taken' is empty; every row needs one [cell/empty]\n"
      "readings.csv:2:2: error: the cell under 'stage' is empty; every row needs one [cell/empty]\n"
      "readings.csv:2:3: error: the reading names neither a pump nor a sample; name one of them "
      "[reading/of-nothing]\n"
      "readings.csv:2:5: error: the cell under 'calibrator' is empty; every row needs one [cell/empty]\n"
      "readings.csv:2:6: error: the cell under 'reading' is empty; every row needs one [cell/empty]\n"
      "readings.csv:3:1: error: '2026-05-01T24:10' names a time that no clock shows; hours run from 00 to 23, minutes "
      "and seconds from 00 to 59 [time/no-such-time]\n"
      "readings.csv:3:18: error: 'psot' is no word for 'stage'; did you mean 'post'? write pre, field or post "
      "[cell/unknown-word]\n"
      "readings.csv:3:23: error: 'PUMP-l' is not a pump of instruments.csv; did you mean 'PUMP-1'? "
      "[reading/unknown-pump]\n"
      "readings.csv:3:30: error: the sample 'S-l' is in no samples file; did you mean 'S-1'? "
      "[reading/unknown-sample]\n"
      "readings.csv:3:34: error: 'VOL-l' is not a calibrator of instruments.csv; did you mean 'VOL-1'? "
      "[reading/unknown-calibrator]\n"
      "readings.csv:3:40: error: '1.9O6' is not a number; write digits with '.' as decimal sign; a letter stands where "
      "a digit should [cell/not-a-number]\n"
      "readings.csv:3:46: error: the pressure '1' can't be; between 10 kPa and 200 kPa is plausible; is the unit in "
      "the heading right? [cell/implausible]\n"
      "readings.csv:3:48: error: the humidity '400' can't be; between 0 % and 100 % is plausible; is the unit in the "
      "heading right? [cell/implausible]\n"
      "readings.csv:3:52: error: 'maybe' is no word for 'void'; write no or yes [cell/unknown-word]\n"
      "readings.csv:4:22: error: 'VOL-1' is not a pump of instruments.csv; add it to instruments.csv as a pump "
      "[reading/unknown-pump]\n"
      "readings.csv:4:29: error: 'PUMP-1' is not a calibrator of instruments.csv; add it to instruments.csv as a "
      "calibrator [reading/unknown-calibrator]\n"
      "readings.csv:5: error: the row has 6 cells, the heading line 10; write one cell for each heading; a cell that "
      "holds the separator goes in quotes [csv/cell-count]\n"
      "readings.csv:6:39: remark: a reading is void and nobody says why; write the reason under 'note' "
      "[reading/void-without-note]\n");
}

TEST(ReadingsFile, RefusesAReadingOnAnotherPumpThanItsSample) {
  const Book book =
      WrittenBook()
          .file("instruments.csv", "instrument,kind,principle\nPUMP-1,pump,\nPUMP-2,pump,\nVOL-1,calibrator,bubble\n")
          .file("readings.csv",
                "taken,stage,sample,pump,calibrator,reading [L/min]\n"
                "2026-05-01T07:50,pre,S-1,PUMP-2,VOL-1,2.0\n"
                "2026-05-01T07:51,pre,S-1,PUMP-1,VOL-1,2.0\n")
          .read();
  EXPECT_EQ(
      told(book.problems),
      "readings.csv:2:26: error: the reading was taken on 'PUMP-2', but its sample 'S-1' ran on 'PUMP-1'; correct the "
      "pump or the sample [reading/other-pump]\n");
  EXPECT_EQ(book.readings.flags[0], reading_is_rejected);
  EXPECT_EQ(book.readings.flags[1], 0);
}

// The sample runs from 08:00 to 16:00.
TEST(ReadingsFile, RefusesAStageThatTheReadingCannotBeOf) {
  const Book book = book_with(heading +
                              "2026-05-01T16:01,pre,S-1,VOL-1,2.0\n"   // when it had stopped
                              "2026-05-01T07:59,post,S-1,VOL-1,2.0\n"  // before it started
                              "2026-05-01T16:00,pre,S-1,VOL-1,2.0\n"   // while it ran: a matter of how long
                              "2026-05-01T08:00,post,S-1,VOL-1,2.0\n"
                              "2026-06-01T12:00,field,S-1,VOL-1,2.0\n"  // stands, and is told
                              "2026-05-01T12:00,field,S-1,VOL-1,2.0\n");
  EXPECT_EQ(told(book.problems),
            "readings.csv:2:1: error: the reading was taken after its sample had stopped, and is said to be of the "
            "stage 'pre': the sample 'S-1' ran from 2026-05-01T08:00+00:00 to 2026-05-01T16:00+00:00; correct the "
            "time, the stage or the sample; or the sample's times [reading/not-its-stage]\n"
            "readings.csv:3:1: error: the reading was taken before its sample started, and is said to be of the stage "
            "'post': the sample 'S-1' ran from 2026-05-01T08:00+00:00 to 2026-05-01T16:00+00:00; correct the time, the "
            "stage or the sample; or the sample's times [reading/not-its-stage]\n"
            "readings.csv:6:1: remark: the reading was taken after its sample had stopped, and is said to be of the "
            "stage 'field': the sample 'S-1' ran from 2026-05-01T08:00+00:00 to 2026-05-01T16:00+00:00; correct the "
            "time, the stage or the sample; or the sample's times [reading/not-during]\n");
  EXPECT_EQ(book.readings.flags[0], reading_is_rejected);
  EXPECT_EQ(book.readings.flags[1], reading_is_rejected);
  EXPECT_EQ(book.readings.flags[4], 0);
}

TEST(ReadingsFile, KeepsAFaultyRowAsRejectedWithItsFirstProblem) {
  const Book book = book_with(heading + sound + "2026-05-01T07:51,pre,S-1,VOL-1,x\n" + sound);
  ASSERT_EQ(book.readings.size(), 3U);
  EXPECT_EQ(book.readings.flags[0], 0);
  EXPECT_EQ(book.readings.flags[1], reading_is_rejected);
  EXPECT_EQ(book.readings.sample[1], 0U) << "whose it is stays known";
  EXPECT_TRUE(is_missing(book.readings.indicated_l_min[1]));
  ASSERT_EQ(book.readings.problem.size(), 1U);
  EXPECT_EQ(problem_text(book, book.readings.problem.at(1)), to_text(book.problems.at(0)));
}

TEST(ReadingsFile, HasNoTimeWhereTheStageIsLost) {
  const Book book = book_with(heading + "2026-05-01T07:51,before,S-1,VOL-1,2.0\n");
  EXPECT_EQ(book.readings.taken[0], no_moment) << "so that it joins no set of a stage it may not be of";
  EXPECT_EQ(book.readings.flags[0], reading_is_rejected);
}

TEST(ReadingsFile, SuggestsASampleForEachOfItsReadings) {
  EXPECT_EQ(
      told_of(heading + "2026-05-01T07:50,pre,S-I,VOL-1,2.0\n2026-05-01T07:51,pre,S-I,VOL-1,2.0\n2026-05-01T07:52,"
                        "pre,Kathmandu,VOL-1,2.0\n"),
      "readings.csv:2:22: error: the sample 'S-I' is in no samples file; did you mean 'S-1'? "
      "[reading/unknown-sample]\n"
      "readings.csv:3:22: error: the sample 'S-I' is in no samples file; did you mean 'S-1'? "
      "[reading/unknown-sample]\n"
      "readings.csv:4:22: error: the sample 'Kathmandu' is in no samples file; add the sample, or correct the name "
      "[reading/unknown-sample]\n");
}

TEST(ReadingsFile, SuggestsNothingWhereManySamplesAreUnknown) {
  std::string rows;
  for (int i = 0; i < 101; ++i) rows += "2026-05-01T07:50,pre,S-1" + std::to_string(i) + ",VOL-1,2.0\n";
  const Book book = book_with(heading + rows);
  EXPECT_EQ(book.problems.size(), 101U);
  EXPECT_EQ(to_text(book.problems[5]),
            "readings.csv:7:22: error: the sample 'S-15' is in no samples file; add the sample, or "
            "correct the name [reading/unknown-sample]");
}

TEST(ReadingsFile, DoesNotTellOfUnknownSamplesWhereTheirFileIsLost) {
  const Book book = WrittenBook().file("samples.csv", "sample,sample\n").file("readings.csv", heading + sound).read();
  EXPECT_EQ(told(book.problems),
            "samples.csv:1:8: error: the column 'sample' stands twice, here as 'sample'; keep one of them "
            "[heading/twice]\n");
  EXPECT_EQ(book.readings.flags[0], reading_is_rejected);
  EXPECT_EQ(problem_text(book, book.readings.problem.at(0)), to_text(book.problems[0]));
}

TEST(ReadingsFile, DoesNotTellOfACalibratorWhoseOwnRowIsFaulty) {
  const Book book =
      WrittenBook()
          .file("instruments.csv", "instrument,kind,principle\nPUMP-1,pump,\nVOL-1,calibratr,volumetric\n")
          .file("readings.csv", heading + sound)
          .read();
  EXPECT_EQ(told(book.problems),
            "instruments.csv:3:7: error: 'calibratr' is no word for 'kind'; did you mean 'calibrator'? write pump, "
            "calibrator, thermometer, barometer or balance [cell/unknown-word]\n");
  EXPECT_EQ(book.readings.calibrator[0], 1U) << "its problem is the set's";
}

TEST(ReadingsFile, AreLostWhereOneNamesNobodyKnown) {
  const Book book = book_with(
      "taken,stage,sample,pump,calibrator,reading [L/min]\n"
      "2026-05-01T07:50,pre,S-1,,VOL-1,x\n"
      "2026-05-01T07:50,pre,S-I,,VOL-1,2.0\n"
      "2026-05-01T07:50,pre,,,VOL-1,2.0\n");
  EXPECT_EQ(problem_text(book, book.lost_readings), to_text(book.problems.at(1)));
  EXPECT_EQ(book_with(heading + "2026-05-01T07:50,pre,S-1,VOL-1,x\n").lost_readings, no_problem);
}

TEST(ReadingsFile, AreLostInsideAQuoteThatNobodyCloses) {
  const Book book = book_with(heading + sound + "\"2026-05-01T07:51,pre,S-1,VOL-1,2.0\n" + sound);
  ASSERT_EQ(book.readings.size(), 2U);
  EXPECT_EQ(
      told(book.problems),
      "readings.csv:3:1: error: the quoted cell that begins here never ends; close it with a quote, and double the "
      "quotes inside it [csv/open-quote]\n");
  EXPECT_EQ(problem_text(book, book.lost_readings), to_text(book.problems[0]));
}

TEST(ReadingsFile, AreLostWithAFileThatCannotBeRead) {
  const Book book = WrittenBook()
                        .file("readings.csv", "taken,stage,sample,calibrator,reading [L/min],Lamp\n")
                        .file("readings/a.csv", "taken,stage,sample,calibrator,reading,Lamp\n" + sound)
                        .read();
  EXPECT_EQ(
      told(book.problems),
      "readings.csv:1:47: remark: columns without a meaning here are kept as notes: 'Lamp' [heading/unknown]\n"
      "readings/a.csv:1:31: error: the heading 'reading' carries no unit; write it as in 'reading [L/min]'; units of "
      "flow are L/min, mL/min, cm3/min, m3/h, m3/min, ft3/min [heading/no-unit]\n"
      "readings/a.csv:1:39: remark: columns without a meaning here are kept as notes: 'Lamp' [heading/unknown]\n");
  EXPECT_EQ(problem_text(book, book.lost_readings), to_text(book.problems[1])) << "the error, not a remark before it";
}

// Rows with fewer bytes than the heading line has columns: once they were written beyond the end of the table.
TEST(ReadingsFile, HasRoomForRowsThatLackCells) {
  std::string rows;
  for (int i = 0; i < 5000; ++i) rows += "x\n";
  const std::string text = "taken,stage,sample,calibrator,reading [L/min],humidity [%],by,set,note,sampler\n" + rows;
  for (const unsigned threads : {1U, 3U}) {
    const Book book = WrittenBook()
                          .without("readings.csv")
                          .file("readings/a.csv", heading + sound)
                          .file("readings/b.csv", text)
                          .file("readings/c.csv", heading + sound)
                          .read(threads);
    ASSERT_EQ(book.readings.size(), 5002U);
    EXPECT_EQ(book.problems.size(), 5000U);
    EXPECT_EQ(book.readings.indicated_l_min[0], 2.0);
    EXPECT_EQ(book.readings.indicated_l_min[5001], 2.0);
    EXPECT_EQ(book.readings.sample[0], 0U);
    EXPECT_EQ(book.readings.flags[5000], reading_is_rejected);
    EXPECT_EQ(book.place_text(book.files.readings, book.readings.place[5001]), "readings/c.csv:2");
  }
}

class BigReadingsFile : public testing::Test {
 protected:
  BigReadingsFile() {
    std::string samples = "sample,pump,started,stopped\n";
    for (int i = 0; i < 5000; ++i) samples += name(i) + ",PUMP-1,2026-05-01T08:00,2026-05-01T16:00\n";
    book_.file("samples.csv", samples).without("readings.csv");
    rows_ = "taken,stage,sample,pump,calibrator,reading [L/min],temperature [°C],by,replicate,void,Lamp\n";
    for (int i = 0; i < 50000; ++i) rows_ += row(i);
    book_.file("readings/a.csv", heading + "2026-05-01T07:50,pre,tube 17,VOL-1,2.0\n").file("readings/b.csv", rows_);
    book_.file("readings/c.csv", heading + "2026-05-01T07:50,pre,tube 18,VOL-1,2.0\n");
  }
  static std::string name(int i) { return "tube " + std::to_string(i); }
  static std::string row(int i) {
    const std::string sample = i % 3 == 0 ? "" : name(i % 4999 == 1 ? 9000 + i : i / 10);
    const std::string figure = i % 4001 == 11 ? "1.9O6" : "1.9" + std::to_string(i % 100);
    return "2026-05-01T07:" + std::to_string(10 + i % 50) + ",pre," + sample + ",PUMP-1,VOL-1," + figure + ",20." +
           std::to_string(i % 10) + ",technician " + std::to_string(i % 13) + "," + std::to_string(i % 5 + 1) + "," +
           (i % 6007 == 3 ? "yes" : "") + "," + (i % 2 == 0 ? "lamp " + std::to_string(i % 77) : "") + "\n";
  }
  std::string whole(unsigned threads) const { return WholeBook(book_.read(threads)).text(); }

  WrittenBook book_;
  std::string rows_;
};

TEST_F(BigReadingsFile, IsTheSameWithAnyNumberOfThreads) {
  ASSERT_GT(rows_.size(), std::size_t{3} << 20);
  const std::string alone = whole(1);
  EXPECT_EQ(whole(2), alone);
  EXPECT_EQ(whole(5), alone);
  EXPECT_NE(alone.find("readings/b.csv:50001|"), std::string::npos);
  EXPECT_NE(alone.find("readings/c.csv:2|"), std::string::npos);
}

TEST_F(BigReadingsFile, IsReadAgainInOrderWhereARowOfSeveralLinesComesLateAndTellsNothingTwice) {
  const std::size_t faults = book_.read(1).problems.size();
  ASSERT_GT(faults, 20U);
  book_.file("readings/b.csv", rows_ + "2026-05-01T07:50,pre,tube 5,,VOL-1,2.0,,\"two\nlines\",,,\n\n" + row(11));
  const std::string alone = whole(1);
  EXPECT_EQ(whole(2), alone);
  EXPECT_EQ(whole(5), alone);
  EXPECT_NE(alone.find("readings/b.csv:50005|"), std::string::npos);
  EXPECT_EQ(book_.read(5).problems.size(), faults + 1);
}

TEST_F(BigReadingsFile, IsTheSameInOrderAsInBlocks) {
  const std::string in_blocks = whole(3);
  book_.file("readings/b.csv", rows_ + "\n");
  EXPECT_EQ(whole(3), in_blocks) << "a blank line at the end";
}

// input: the same rows, each of another sample than the one before, so that from the second block on the reader looks
// ahead; some name a sample that isn't there.
TEST_F(BigReadingsFile, IsTheSameInOrderAsInBlocksWhereReadingsLieInAnyOrder) {
  std::string rows = rows_.substr(0, rows_.find('\n') + 1);
  for (int i = 0; i < 50000; ++i) rows += row(i * 7919 % 50000);
  book_.file("readings/b.csv", rows);
  const std::string alone = whole(1);
  EXPECT_EQ(whole(4), alone);
  book_.file("readings/b.csv", rows + "\n");
  EXPECT_EQ(whole(1), alone) << "a blank line at the end";
}

}  // namespace
}  // namespace driftwarden::readings_file_test
