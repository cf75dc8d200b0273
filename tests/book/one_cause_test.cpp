// SPDX-License-Identifier: MIT
#include "book/one_cause.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::one_cause_test {
namespace {

const std::string headings = "When,stage,sample,calibrator,reading [L/min]\n";

std::string told_once(const WrittenBook& book) { return told(told_by_cause(book.read())); }

// Readings that were taken at these times.
void write_taken_at(WrittenBook& book, const std::vector<std::string>& times, const std::string& flow) {
  book.file("book.toml", "time_zone = \"UTC\"\n[headings.readings]\n\"When\" = \"taken\"\n");
  std::string rows = headings;
  for (const std::string& time : times) rows += time + ",pre,S-1,VOL-1," + flow + "\n";
  book.file("readings.csv", rows);
}

std::string told_of(const std::vector<std::string>& times, const std::string& flow = "2.0") {
  WrittenBook book;
  write_taken_at(book, times, flow);
  return told_once(book);
}

TEST(OneCause, IsToldOnceWithTheSettingThatReadsAll) {
  const std::string said =
      told_of({"3/11/2026 6:16", "4/11/2026 6:16", "13/11/2026 6:16", "14/11/2026 6:16", "5/11/2026 6:16"});
  EXPECT_EQ(
      said,
      "readings.csv:2:1: error: '3/11/2026 6:16' does not say which number is the month (and so in 5 cells of the "
      "column 'When', the first are lines 2, 3 and 4); every one of its 5 cells fits day first, and 2 of them "
      "nothing else: write dates = \"day first\" in book.toml, for this file under [files.\"readings.csv\"] "
      "[time/slashes]\n");
}

TEST(OneCause, IsNeverGuessedWhereAFileAllowsBothOrders) {
  const std::string said = told_of({"3/11/2026 6:16", "4/11/2026 6:16", "5/11/2026 6:16", "6/11/2026 6:16"});
  EXPECT_NE(said.find("every one of its 4 cells fits day first and month first: say which it is"), std::string::npos)
      << said;
}

TEST(OneCause, IsNoSettingWhereNoneReadsAll) {
  const std::string said = told_of({"13/11/2026 6:16", "14/11/2026 6:16", "11/13/2026 6:16", "11/12/2026 6:16"});
  EXPECT_NE(said.find("of its 4 cells 3 fit day first and 2 month first"), std::string::npos) << said;
}

TEST(OneCause, MayBeTheDecimalSign) {
  const std::string time = "2026-05-01T07:30";
  const std::string said = told_of({time, time, time, time}, "\"2,01\"");
  EXPECT_NE(said.find("(and so in 4 cells of the column 'reading [L/min]', the first are lines 2, 3 and 4); decimal = "
                      "\",\" would read all 4: "),
            std::string::npos)
      << said;
}

TEST(OneCause, OfSeveralColumnsIsTheSettingThatMendsThemAll) {
  WrittenBook book;
  std::string rows = "taken,stage,sample,calibrator,reading [L/min],temperature [°C]\n";
  for (int i = 0; i < 3; ++i) rows += "2026-05-01T07:30,pre,S-1,VOL-1,\"2,01\",\"20,5\"\n";
  book.file("readings.csv", rows);
  const Diagnostics said = told_by_cause(book.read());
  ASSERT_EQ(said.size(), 1U) << told(said);
  EXPECT_EQ(
      to_text(said[0]),
      "readings.csv:2:32: error: '2,01' is not a number (and so in 6 cells of 2 columns, the first are lines 2, 2 "
      "and 3); decimal = \",\" would read all 6: write decimal = \",\" in book.toml, for this file under "
      "[files.\"readings.csv\"] [cell/not-a-number]");
}

TEST(OneCause, IsToldLineByLineWhereThereAreFew) {
  WrittenBook book;
  write_taken_at(book, {"3/11/2026 6:16", "4/11/2026 6:16", "5/11/2026 6:16"}, "2.0");
  EXPECT_EQ(told_once(book), book.faults());
}

TEST(OneCause, OfNamesIsOneName) {
  WrittenBook book;
  std::string rows = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int i = 0; i < 4; ++i) rows += "2026-05-01T07:30,pre,S-1,VOL-2,2.0\n";
  book.file("readings.csv", rows + "2026-05-01T07:30,pre,S-1,VOL-3,2.0\n");
  const Diagnostics said = told_by_cause(book.read());
  ASSERT_EQ(said.size(), 2U);
  EXPECT_NE(said[0].message.find("(and so in 4 cells of the column 'calibrator'"), std::string::npos);
}

TEST(OneCause, OfAnotherEncodingIsOneColumn) {
  WrittenBook book;
  std::string rows = "taken,stage,sample,calibrator,reading [L/min],by\n";
  for (const char* who : {"Jos\xE9", "Ren\xE9", "Zo\xEB", "T\xFAnel"})
    rows += std::string("2026-05-01T07:30,pre,S-1,VOL-1,2.0,") + who + "\n";
  const std::string said = told_once(book.file("readings.csv", rows));
  EXPECT_NE(
      said.find(
          "(and so in 4 cells of the column 'by', the first are lines 2, 3 and 4); save the file as CSV in UTF-8"),
      std::string::npos)
      << said;
}

// A date with the year before: each sample has other words, and the cause is one.
TEST(OneCause, OfTimesOutOfOrderIsOneColumn) {
  WrittenBook book;
  std::string samples = "sample,pump,started,stopped\n";
  std::string rows = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (const std::string name : {"S-5", "S-6", "S-7", "S-8"}) {
    samples += name + ",PUMP-1,2026-05-01T08:00,2026-05-01T16:00\n";
    rows += "2025-05-01T16:20,post," + name + ",VOL-1,2.0\n";
  }
  const std::string said = told_once(book.file("samples.csv", samples).file("readings.csv", rows));
  EXPECT_NE(said.find("(and so in 4 cells of the column 'taken', the first are lines 2, 3 and 4)"), std::string::npos);
  EXPECT_EQ(std::count(said.begin(), said.end(), '\n'), 1) << said;
}

TEST(OneCause, OfHeadingLinesIsToldForAllFiles) {
  WrittenBook book;
  book.without("readings.csv");
  for (const char* week : {"readings/W45.csv", "readings/W46.csv"})
    book.file(week, "taken,stage,sample,calibrator,reading\n");
  EXPECT_EQ(
      told_once(book),
      "readings/W45.csv:1:31: error: the heading 'reading' carries no unit (and so in 2 files, the first are "
      "readings/W45.csv and readings/W46.csv); write it as in 'reading [L/min]'; units of flow are L/min, mL/min, "
      "cm3/min, m3/h, m3/min, ft3/min [heading/no-unit]\n");
}

}  // namespace
}  // namespace driftwarden::one_cause_test
