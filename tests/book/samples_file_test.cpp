// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/whole_book.hpp"

namespace driftwarden::samples_file_test {
namespace {

const std::string heading = "sample,pump,started,stopped\n";
const std::string times = "2026-05-01T08:00,2026-05-01T16:00";

Book book_with(const std::string& samples) { return WrittenBook().file("samples.csv", samples).read(); }

const std::string& text(const Book& book, const Column<TextId>& column, Row row) {
  return book.texts.text(field(column, row, TextId{0}));
}

TEST(SamplesFile, FillsEveryFieldOfASample) {
  const Book book = book_with(
      "sample,batch,kind,pump,sampler,nominal [mL/min],method,analysis,medium,started,stopped,paused [h],warm-up "
      "[min],vacuum [inHg],leak [mL/min],interruptions,pressure drop [hPa],pulsation [%],temperature [K],pressure "
      "[Pa],fault,by,note\n"
      "S-1,B-7,Sample,PUMP-1,our-impactor,2000,method 7,quartz,cassette "
      "4611,2026-05-01T08:00,2026-05-01T16:00Z,0.5,20,18,75,3,25,20,290,"
      "85000,no,day shift,\"wind, dust\"\n");
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.samples.size(), 1U);
  const SampleTable& t = book.samples;
  EXPECT_EQ(t.name[0], "S-1");
  EXPECT_EQ(text(book, t.batch, 0), "B-7");
  EXPECT_EQ(t.kind[0], SampleKind::sample);
  EXPECT_EQ(t.pump[0], 0U);
  EXPECT_EQ(text(book, t.sampler, 0), "our-impactor");
  EXPECT_EQ(t.nominal_l_min[0], 2.0);
  EXPECT_EQ(text(book, t.method, 0), "method 7");
  EXPECT_EQ(text(book, t.analysis, 0), "quartz");
  EXPECT_EQ(text(book, t.medium, 0), "cassette 4611");
  EXPECT_EQ(t.started[0], 1777622400);
  EXPECT_EQ(t.stopped[0], 1777622400 + 8 * 3600);
  EXPECT_EQ(t.paused_min[0], 30.0);
  EXPECT_EQ(t.warm_up_min[0], 20.0);
  EXPECT_NEAR(t.vacuum_kpa[0], 18 * 3.386388640341, 1e-9);  // derived: the inch of mercury of the unit table
  EXPECT_EQ(t.leak_l_min[0], 0.075);                        // derived: 75 mL/min in L/min
  EXPECT_EQ(t.interruptions[0], 3.0);
  EXPECT_EQ(t.pressure_drop_kpa[0], 2.5);
  EXPECT_EQ(t.pulsation[0], 0.2);
  EXPECT_EQ(t.temperature_k[0], 290.0);
  EXPECT_EQ(t.pressure_kpa[0], 85.0);
  EXPECT_EQ(t.fault[0], YesNo::no);
  EXPECT_EQ(text(book, t.by, 0), "day shift");
  EXPECT_EQ(text(book, t.note, 0), "wind, dust");
  EXPECT_EQ(t.problem[0], no_problem);
}

TEST(SamplesFile, TellsOfNamesAndWordsInAnotherEncodingWithAnyNumberOfThreads) {
  WrittenBook written;
  std::string samples = "sample,batch,pump,started,stopped\n";
  for (int i = 0; i < 2000; ++i)
    samples += "S-" + std::to_string(i) +
               ",Ma\xF1"
               "ana,PUMP-1," +
               times + "\n";
  samples += "T\xFAnel,,PUMP-1," + times + "\n";
  written.file("samples.csv", samples);
  const Book book = written.read(1);
  ASSERT_EQ(book.problems.size(), 2001U);
  EXPECT_EQ(to_text(book.problems[0]),
            "samples.csv:2:5: error: 'Ma\\xf1"
            "ana' is not UTF-8; save the file as CSV in UTF-8 [csv/not-utf-8]");
  EXPECT_EQ(problem_text(book, book.samples.problem[2000]),
            "samples.csv:2002:1: error: 'T\\xfanel' is not UTF-8; save the file as CSV in UTF-8 [csv/not-utf-8]");
  EXPECT_EQ(WholeBook(written.read(4)).text(), WholeBook(book).text());
}

TEST(SamplesFile, CountsInterruptionsInWholeNumbersWithoutAUnit) {
  EXPECT_EQ(told(book_with("sample,pump,started,stopped,interruptions\nS-1,PUMP-1," + times + ",10.5\n").problems),
            "samples.csv:2:46: error: '10.5' is not a whole number; write how often it was interrupted "
            "[sample/interruptions]\n");
  EXPECT_NE(told(book_with("sample,pump,started,stopped,interruptions [min]\nS-1,PUMP-1," + times + ",45\n").problems)
                .find("samples.csv:1:29: error: the heading 'interruptions [min]' has a unit, and is a plain number; "
                      "write it as in 'interruptions', and plain numbers below it [heading/unknown-unit]"),
            std::string::npos);
}

TEST(SamplesFile, ReadsEmptyCellsAsMissingAndNotAsZero) {
  const Book book = book_with(
      "sample,pump,started,stopped,nominal [L/min],paused [min],warm-up [min],vacuum [kPa],leak "
      "[mL/min],interruptions,pressure drop [kPa],pulsation [%],temperature "
      "[°C],pressure [kPa],fault\n"
      "S-1,PUMP-1," +
      times + ",,,,,,,,,,,\n");
  const SampleTable& t = book.samples;
  for (const auto* column : {&t.nominal_l_min, &t.paused_min, &t.warm_up_min, &t.vacuum_kpa, &t.leak_l_min,
                             &t.interruptions, &t.pressure_drop_kpa, &t.pulsation, &t.temperature_k, &t.pressure_kpa}) {
    ASSERT_EQ(column->size(), 1U);
    EXPECT_TRUE(is_missing((*column)[0]));
  }
  EXPECT_EQ(t.fault[0], YesNo::unsaid);
}

TEST(SamplesFile, KeepsNoColumnThatNobodyWrote) {
  const Book book = book_with(heading + "S-1,PUMP-1," + times + "\n");
  EXPECT_TRUE(book.samples.temperature_k.empty());
  EXPECT_TRUE(book.samples.note.empty());
  EXPECT_TRUE(is_missing(field(book.samples.temperature_k, 0)));
}

TEST(SamplesFile, ReadsAColumnThatOnlyAnotherFileHasAsMissing) {
  const Book book =
      WrittenBook()
          .file("samples.csv",
                "sample,pump,started,stopped,temperature [°C],batch,fault\nS-1,PUMP-1," + times + ",20,B,yes\n")
          .file("samples/a.csv", heading + "S-2,PUMP-1," + times + "\n")
          .file(
              "samples/b.csv",
              "stopped;pressure [kPa];started;pump;sample;Lamp\n2026-05-01T16:00;85;2026-05-01T08:00;PUMP-1;S-3;red\n")
          .read();
  const SampleTable& t = book.samples;
  ASSERT_EQ(book.samples.size(), 3U);
  EXPECT_DOUBLE_EQ(t.temperature_k[0], 293.15);
  EXPECT_TRUE(is_missing(t.temperature_k[1]));
  EXPECT_TRUE(is_missing(t.temperature_k[2]));
  EXPECT_TRUE(is_missing(t.pressure_kpa[0]));
  EXPECT_TRUE(is_missing(t.pressure_kpa[1]));
  EXPECT_EQ(t.pressure_kpa[2], 85.0);
  EXPECT_EQ(text(book, t.batch, 0), "B");
  EXPECT_EQ(text(book, t.batch, 1), "");
  EXPECT_EQ(t.fault[1], YesNo::unsaid);
  EXPECT_EQ(text(book, t.note, 1), "");
  EXPECT_EQ(text(book, t.note, 2), "Lamp: red");
  EXPECT_EQ(book.place_text(book.files.samples, t.place[1]), "samples/a.csv:2");
  EXPECT_EQ(book.place_text(book.files.samples, t.place[2]), "samples/b.csv:2");
}

TEST(SamplesFile, TellsOfPausesThatAreLongerThanTheRun) {
  const std::string with_pauses = "sample,pump,started,stopped,paused [h]\nS-1,PUMP-1," + times + ",";
  EXPECT_EQ(told(book_with(with_pauses + "8\n").problems), "");
  EXPECT_EQ(told(book_with(with_pauses + "8.01\n").problems),
            "samples.csv:2:46: error: the sample stood still for longer than the 480 min from its start to its stop; "
            "check the pauses and the two times [sample/paused-too-long]\n");
}

TEST(SamplesFile, AsksABlankForNeitherPumpNorTimes) {
  const Book book = book_with("sample,kind,pump,started,stopped\nB-1,blank,,,\nB-2,BLANK,PUMP-1," + times + "\n");
  EXPECT_EQ(told(book.problems), "");
  EXPECT_EQ(book.samples.kind[0], SampleKind::blank);
  EXPECT_EQ(book.samples.pump[0], no_row);
  EXPECT_EQ(book.samples.started[0], no_moment);
  EXPECT_EQ(book.samples.pump[1], 0U);
}

TEST(SamplesFile, TellsEveryFault) {
  EXPECT_EQ(
      told(book_with("sample,kind,pump,started,stopped,temperature [°C],fault\n"
                     ",,PUMP-1," +
                     times +
                     ",,\n"
                     "S-2,blnk,," +
                     times +
                     ",,\n"
                     "S-3,,PUMP-l,,,,\n"
                     "S-4,,VOL-1,2026-05-01T16:00,2026-05-01T08:00,,\n"
                     "S-5,,PUMP-1,2026-05-01T08:00,2026-05-01T08:00,200,maybe\n"
                     "S-6,,PUMP-1,8:00,2026-13-01T08:00,,\n"
                     "S-7,,PUMP-1," +
                     times +
                     "\n"
                     "S-8,,,,,,\n")
               .problems),
      "samples.csv:2:1: error: the cell under 'sample' is empty; every row needs one [cell/empty]\n"
      "samples.csv:3:5: error: 'blnk' is no word for 'kind'; did you mean 'blank'? write sample or blank "
      "[cell/unknown-word]\n"
      "samples.csv:3:10: error: the sample has no pump; name the pump, or set kind to blank [sample/no-pump]\n"
      "samples.csv:4:6: error: 'PUMP-l' is not a pump of instruments.csv; did you mean 'PUMP-1'? "
      "[sample/unknown-pump]\n"
      "samples.csv:4:13: error: the cell under 'started' is empty; a sample needs its start and its stop; only a blank "
      "does without [cell/empty]\n"
      "samples.csv:4:14: error: the cell under 'stopped' is empty; a sample needs its start and its stop; only a blank "
      "does without [cell/empty]\n"
      "samples.csv:5:6: error: 'VOL-1' is not a pump of instruments.csv; add it to instruments.csv as a pump "
      "[sample/unknown-pump]\n"
      "samples.csv:5:29: error: the sample stops at '2026-05-01T08:00', not after its start; check the two times and "
      "their dates [sample/stops-before-start]\n"
      "samples.csv:6:30: error: the sample stops at '2026-05-01T08:00', not after its start; check the two times and "
      "their dates [sample/stops-before-start]\n"
      "samples.csv:6:47: error: the temperature '200' can't be; between -93.15 °C and 126.85 °C is plausible; is the "
      "unit in the heading right? [cell/implausible]\n"
      "samples.csv:6:51: error: 'maybe' is no word for 'fault'; write no or yes [cell/unknown-word]\n"
      "samples.csv:7:13: error: '8:00' is not a date and time; write year-month-day and the time, as "
      "2026-09-21T07:15 [time/not-a-time]\n"
      "samples.csv:7:18: error: '2026-13-01T08:00' names a day that no calendar has; months run from 01 to 12 "
      "[time/no-such-date]\n"
      "samples.csv:8: error: the row has 5 cells, the heading line 7; write one cell for each heading; a cell that "
      "holds the separator goes in quotes [csv/cell-count]\n"
      "samples.csv:9:6: error: the sample has no pump; name the pump, or set kind to blank [sample/no-pump]\n"
      "samples.csv:9:7: error: the cell under 'started' is empty; a sample needs its start and its stop; only a blank "
      "does without [cell/empty]\n"
      "samples.csv:9:8: error: the cell under 'stopped' is empty; a sample needs its start and its stop; only a blank "
      "does without [cell/empty]\n");
}

TEST(SamplesFile, KeepsAFaultyRowWithItsProblemAndTheOthersWithout) {
  const Book book = book_with(heading + "S-1,PUMP-1," + times + "\nS-2,PUMP-1\nS-3,PUMP-1," + times + "\n");
  ASSERT_EQ(book.samples.size(), 3U);
  EXPECT_EQ(book.samples.name[1], "S-2");
  EXPECT_EQ(book.samples.problem[0], no_problem);
  EXPECT_EQ(problem_text(book, book.samples.problem[1]), to_text(book.problems.at(0)));
  EXPECT_EQ(book.samples.problem[2], no_problem);
}

TEST(SamplesFile, GivesSamplesWithoutANameNamesThatAreNotTheSame) {
  const Book book = WrittenBook()
                        .without("samples.csv")
                        .file("samples/a.csv", heading + ",PUMP-1," + times + "\n")
                        .file("samples/b.csv", heading + ",PUMP-1," + times + "\n")
                        .read();
  EXPECT_EQ(book.samples.name[0], "(samples/a.csv:2)");
  EXPECT_EQ(book.samples.name[1], "(samples/b.csv:2)");
  EXPECT_EQ(told(book.problems),
            "samples/a.csv:2:1: error: the cell under 'sample' is empty; every row needs one [cell/empty]\n"
            "samples/b.csv:2:1: error: the cell under 'sample' is empty; every row needs one [cell/empty]\n");
}

TEST(SamplesFile, LeansOnTheRowOfItsPump) {
  const Book book =
      WrittenBook()
          .file("instruments.csv", "instrument,kind,in service\nPUMP-1,pump,soon\nPUMP-2,pmup,\nPUMP-3,pump,\n")
          .file("samples.csv",
                heading + "S-1,PUMP-1," + times + "\nS-2,PUMP-2," + times + "\nS-3,PUMP-3," + times + "\n")
          .read();
  ASSERT_EQ(book.problems.size(), 2U) << told(book.problems);
  EXPECT_EQ(problem_text(book, book.samples.problem[0]), to_text(book.problems[0]));
  EXPECT_EQ(problem_text(book, book.samples.problem[1]), to_text(book.problems[1]));
  EXPECT_EQ(book.samples.problem[2], no_problem);
}

TEST(SamplesFile, DoesNotTellOfUnknownPumpsWhereTheInstrumentsAreLost) {
  const Book book = WrittenBook().without("instruments.csv").read();
  EXPECT_EQ(told(book.problems),
            "instruments.csv: error: the book has no instruments.csv; add it; 'driftwarden new' shows its columns "
            "[book/no-table]\n");
  EXPECT_EQ(problem_text(book, book.samples.problem[0]), to_text(book.problems[0]));
}

// Rows with fewer bytes than the heading line has columns: once they were written beyond the end of the table.
TEST(SamplesFile, HasRoomForRowsThatLackCells) {
  std::string rows;
  for (int i = 0; i < 3000; ++i) rows += "x\n";
  const std::string text = "sample,pump,started,stopped,batch,kind,sampler,method,analysis,note\n" + rows;
  for (const unsigned threads : {1U, 3U}) {
    const Book book = WrittenBook()
                          .without("samples.csv")
                          .file("samples/a.csv", heading + "S-1,PUMP-1," + times + "\n")
                          .file("samples/b.csv", text)
                          .file("samples/c.csv", text)
                          .file("samples/d.csv", heading + "S-9,PUMP-1," + times + "\n")
                          .read(threads);
    ASSERT_EQ(book.samples.size(), 6002U);
    EXPECT_EQ(book.samples.name[0], "S-1");
    EXPECT_EQ(book.samples.name[6000], "x");
    EXPECT_EQ(book.samples.name[6001], "S-9");
    EXPECT_EQ(book.samples.started[6001], 1777622400);
  }
}

TEST(SamplesFile, IsTheSameWithAnyNumberOfThreads) {
  std::string rows = "sample,pump,started,stopped,batch,temperature [°C],note\n";
  for (int i = 0; i < 40000; ++i) {
    const std::string n = std::to_string(i);
    rows += "sample number " + n + "," + (i % 997 == 5 ? "PUMP-l" : "PUMP-1") + "," + times + ",batch " +
            std::to_string(i / 7) + "," + (i % 991 == 7 ? "2O" : "20.5") + ",\"say \"\"" + n + "\"\"\"\n";
  }
  ASSERT_GT(rows.size(), std::size_t{3} << 20);
  WrittenBook book;
  book.file("samples.csv", heading + "S-1,PUMP-1," + times + "\n").file("samples/big.csv", rows);
  book.file("samples/small.csv", heading + "S-2,PUMP-1," + times + "\n");
  const std::string alone = WholeBook(book.read(1)).text();
  EXPECT_EQ(WholeBook(book.read(2)).text(), alone);
  EXPECT_EQ(WholeBook(book.read(5)).text(), alone);
  EXPECT_NE(alone.find("samples/big.csv:40001|sample number 39999|"), std::string::npos);
  EXPECT_NE(alone.find("samples/small.csv:2|S-2|"), std::string::npos);
  // A row of several lines, late in the file: it is read again in order, and nothing is told twice.
  book.file("samples/big.csv",
            rows + "last,PUMP-1," + times + ",,,\"two\nlines\"\nvery last,PUMP-1," + times + ",,x,\n");
  const std::string in_order = WholeBook(book.read(1)).text();
  EXPECT_EQ(WholeBook(book.read(2)).text(), in_order);
  EXPECT_EQ(WholeBook(book.read(5)).text(), in_order);
  EXPECT_NE(in_order.find("samples/big.csv:40004|very last|"), std::string::npos);
  const Book last = book.read(5);
  EXPECT_EQ(last.problems.size(), book.file("samples/big.csv", rows).read(1).problems.size() + 1);
}

}  // namespace
}  // namespace driftwarden::samples_file_test
