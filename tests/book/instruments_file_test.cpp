// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/table_files.hpp"
#include "book/written_book.hpp"

namespace driftwarden::instruments_file_test {
namespace {

// echo: what the rows of the file say.

// What is told of a book with these rows of instruments.csv, and with no samples that could lean on them.
std::string told_of(const std::string& text) {
  return WrittenBook().file("samples.csv", "sample\n").file("instruments.csv", text).faults();
}

TEST(InstrumentsFile, FillsEveryFieldOfAnInstrument) {
  const Book book =
      WrittenBook()
          .file("instruments.csv",
                "instrument,kind,principle,serial,low [mL/min],high [L/min],scale temperature [°F],scale "
                "pressure [mmHg],read at,interval [d],in service,out of service,note\n"
                "ROT-1,Calibrator,ROTAMETER,SN 12,500,5,68,760,centre,365,2024-01-02,2026-12-31,\"chipped, "
                "not cracked\"\n")
          .read();
  ASSERT_EQ(book.instruments.size(), 1U);
  const Instrument& it = book.instruments[0];
  EXPECT_EQ(it.name, "ROT-1");
  EXPECT_EQ(it.kind, InstrumentKind::calibrator);
  EXPECT_EQ(it.principle, Principle::rotameter);
  EXPECT_EQ(it.serial, "SN 12");
  EXPECT_EQ(it.low_l_min, 0.5);
  EXPECT_EQ(it.high_l_min, 5.0);
  EXPECT_DOUBLE_EQ(it.scale_temperature->kelvin, 293.15);
  EXPECT_DOUBLE_EQ(it.scale_pressure->value, 101.325);
  EXPECT_EQ(it.read_at, ReadAt::centre);
  EXPECT_EQ(it.interval_d, 365.0);
  EXPECT_EQ(it.in_service, day_from({2024, 1, 2}));
  EXPECT_EQ(it.out_of_service, day_from({2026, 12, 31}));
  EXPECT_EQ(it.note, "chipped, not cracked");
  EXPECT_EQ(book.place_text(book.files.instruments, it.place), "instruments.csv:2");
  EXPECT_EQ(it.problem, no_problem);
}

TEST(InstrumentsFile, LeavesEmptyWhatIsNotSaid) {
  const Book book = WrittenBook().file("instruments.csv", "instrument,kind,low [L/min],note\nPUMP-1,pump,,\n").read();
  const Instrument& it = book.instruments.at(0);
  EXPECT_EQ(it.kind, InstrumentKind::pump);
  EXPECT_EQ(it.principle, Principle::none);
  EXPECT_FALSE(it.low_l_min);
  EXPECT_FALSE(it.high_l_min);
  EXPECT_FALSE(it.scale_temperature);
  EXPECT_FALSE(it.scale_pressure);
  EXPECT_FALSE(it.interval_d);
  EXPECT_EQ(it.in_service, no_day);
  EXPECT_EQ(it.note, "");
}

TEST(InstrumentsFile, KnowsEveryKindAndPrinciple) {
  const Book book = WrittenBook()
                        .file("instruments.csv",
                              "instrument,kind,principle,read at\nPUMP-1,pump,,\nT,thermometer,,\nB,barometer,,\n"
                              "C1,calibrator,volumetric,\nC2,calibrator,bubble,\nC3,calibrator,rotameter,top\n"
                              "C4,calibrator,mass,\nC5,calibrator,orifice,\n")
                        .read();
  std::string kinds;
  for (const Instrument& it : book.instruments) {
    kinds += std::string(to_text(it.kind)) + "/" + std::string(to_text(it.principle)) + " ";
  }
  EXPECT_EQ(kinds,
            "pump/ thermometer/ barometer/ calibrator/volumetric calibrator/bubble calibrator/rotameter "
            "calibrator/mass calibrator/orifice ");
  EXPECT_EQ(book.instruments[5].read_at, ReadAt::top);
  EXPECT_EQ(told(book.problems), "");
}

TEST(InstrumentsFile, KeepsUnknownColumnsInTheNote) {
  const Book book =
      WrittenBook().file("instruments.csv", "instrument,kind,Shelf,note\nPUMP-1,pump,4 b,ours\nPUMP-2,pump,,\n").read();
  EXPECT_EQ(book.instruments[0].note, "ours; Shelf: 4 b");
  EXPECT_EQ(book.instruments[1].note, "");
  EXPECT_EQ(
      told(book.problems),
      "instruments.csv:1:17: remark: columns without a meaning here are kept as notes: 'Shelf' [heading/unknown]\n");
}

TEST(InstrumentsFile, TellsEveryFault) {
  EXPECT_EQ(
      told_of("instrument,kind,principle,low [L/min],scale pressure [kPa],read at,in service\n"
              ",pump,,,,,\n"
              "P-2,pmup,,,,,\n"
              "C-3,calibrator,,,,,\n"
              "C-4,calibrator,rotametre,-1,1013,middle,yesterday\n"
              "C-5,calibrator\n"
              "P-2,pump,,,,,\n"),
      "instruments.csv:2:1: error: the cell under 'instrument' is empty; every row needs one [cell/empty]\n"
      "instruments.csv:3:5: error: 'pmup' is no word for 'kind'; did you mean 'pump'? write pump, calibrator, "
      "thermometer, barometer or balance [cell/unknown-word]\n"
      "instruments.csv:4:16: error: the calibrator 'C-3' has no principle; write volumetric, bubble, rotameter, mass "
      "or orifice [instrument/no-principle]\n"
      "instruments.csv:5:16: error: 'rotametre' is no word for 'principle'; did you mean 'rotameter'? write "
      "volumetric, bubble, rotameter, mass or orifice [cell/unknown-word]\n"
      "instruments.csv:5:26: error: the low '-1' can't be; between 0 L/min and 100000 L/min is plausible; is the unit "
      "in the heading right? [cell/implausible]\n"
      "instruments.csv:5:29: error: the scale pressure '1013' can't be; between 10 kPa and 200 kPa is plausible; is "
      "the unit in the heading right? [cell/implausible]\n"
      "instruments.csv:5:34: error: 'middle' is no word for 'read at'; write centre or top [cell/unknown-word]\n"
      "instruments.csv:5:41: error: 'yesterday' is not a date; write year-month-day, as 2026-09-21 "
      "[time/not-a-date]\n"
      "instruments.csv:6: error: the row has 2 cells, the heading line 7; write one cell for each heading; a cell "
      "that holds the separator goes in quotes [csv/cell-count]\n"
      "instruments.csv:7:1: error: the instrument 'P-2' stands already in instruments.csv:3; keep one row for each "
      "instrument [instrument/twice]\n");
}

TEST(InstrumentsFile, MarksBothRowsOfAnInstrumentThatStandsTwice) {
  const Book book = WrittenBook()
                        .file("instruments.csv",
                              "instrument,kind,principle\nPUMP-1,pump,\nC-1,calibrator,bubble\nC-1,calibrator,mass\n"
                              "C-1,calibrator,orifice\n")
                        .read();
  const std::string told =
      "instruments.csv:4:1: error: the instrument 'C-1' stands already in instruments.csv:3; keep one "
      "row for each instrument [instrument/twice]";
  EXPECT_EQ(problem_text(book, book.instruments[0].problem), "");
  EXPECT_EQ(problem_text(book, book.instruments[1].problem), told);
  EXPECT_EQ(problem_text(book, book.instruments[2].problem), told);
  EXPECT_EQ(
      problem_text(book, book.instruments[3].problem),
      "instruments.csv:5:1: error: the instrument 'C-1' stands already in instruments.csv:3; keep one row for each "
      "instrument [instrument/twice]");
}

TEST(InstrumentsFile, DoesNotCallTwoRowsWithoutANameTheSame) {
  EXPECT_EQ(told_of("instrument,kind\n,pump\n,pump\n"),
            "instruments.csv:2:1: error: the cell under 'instrument' is empty; every row needs one [cell/empty]\n"
            "instruments.csv:3:1: error: the cell under 'instrument' is empty; every row needs one [cell/empty]\n");
}

TEST(InstrumentsFile, MayBeAFolderOfFiles) {
  const Book book = WrittenBook()
                        .without("instruments.csv")
                        .file("instruments/pumps.csv", "instrument,kind\nPUMP-1,pump\nPUMP-2,pump\n")
                        .file("instruments/calibrators.csv", "kind;principle;instrument\ncalibrator;bubble;PUMP-2\n")
                        .read();
  ASSERT_EQ(book.instruments.size(), 3U);
  EXPECT_EQ(
      told(book.problems),
      "instruments/pumps.csv:3:1: error: the instrument 'PUMP-2' stands already in instruments/calibrators.csv:2; "
      "keep one row for each instrument [instrument/twice]\n");
}

TEST(UnknownInstruments, AreHintedAtAmongThoseOfTheKind) {
  const Book book =
      WrittenBook()
          .file("instruments.csv", "instrument,kind,principle\nPUMP-12,pump,\nPUMP-1,calibrator,bubble\n")
          .file("samples.csv",
                "sample,pump,started,stopped\nS-1,PUMP-I2,2026-05-01T08:00,2026-05-01T16:00\n"
                "S-2,Kathmandu,2026-05-01T08:00,2026-05-01T16:00\n")
          .file("readings.csv", "taken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:50,pre,S-1,PUMP-2,2\n")
          .read();
  std::string hints;
  for (const Diagnostic& problem : book.problems) hints += problem.hint + '\n';
  EXPECT_EQ(hints, "did you mean 'PUMP-1'?\ndid you mean 'PUMP-12'?\nadd it to instruments.csv as a pump\n");
}

}  // namespace
}  // namespace driftwarden::instruments_file_test
