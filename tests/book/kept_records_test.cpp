// SPDX-License-Identifier: MIT
// Whole books whose files are kept as people keep them.
#include <gtest/gtest.h>

#include "book/book.hpp"
#include "book/whole_book.hpp"

namespace driftwarden::kept_records_test {
namespace {

// echo: the same records, kept cleanly and as an office keeps them.
void write_clean_twin(WrittenBook& book) {
  book.file("samples.csv",
            "sample,pump,nominal [L/min],started,stopped,temperature [°C],note\n"
            "S-1,PUMP-1,2.0,2026-11-03T06:16,2026-11-03T14:16,20,\n"
            "S 2,PUMP-1,,2026-11-04T06:16,2026-11-04T18:05,-5,\n");
  book.file("readings.csv",
            "taken,stage,sample,calibrator,reading [L/min],temperature [°C],pressure [kPa]\n"
            "2026-11-03T06:00,pre,S-1,VOL-1,2.01,25,101.325\n"
            "2026-11-04T18:10,post,S 2,VOL-1,1.99,,\n");
}

TEST(KeptRecords, IsReadAsItsCleanTwinHoweverItsFilesAreKept) {
  WrittenBook book;
  book.file("book.toml", R"(time_zone = "UTC"
[headings.samples]
"Date" = "started date"
"On" = "started time"
"Off" = "stopped time"
"Set flow" = "nominal"
[headings.readings]
"Flow" = "reading"
[files."samples.csv"]
dates = "day first"
decimal = ","
ignore_rows = ["Total*"]
[files."readings.csv"]
dates = "month first"
)");
  book.file("samples.csv",
            "Samples of week 45\n\n"
            "sample;pump;Set flow, L/min;Date;On;Off;temperature (°C);note\n"
            "S-1;PUMP-1;2,0;3.11.2026;6:16;14:16;\u00A020;n/a\n"
            "S\u00A02;PUMP-1;—;04.11.26;06:16 am;6:05 pm;-5;-\n"
            "Total;;;;;;;\n");
  book.file("readings.csv",
            "taken,stage,sample,calibrator,Flow (L/min),temperature (°F),pressure [kPa]\n"
            "11/3/2026 6:00,pre,S-1,VOL-1\u202F,2.01,77,101.325\n"
            "2026/11/04\u00A06:10 PM,post,S 2,VOL-1,1.99,N/A,none\n");
  const Book kept = book.read();
  EXPECT_EQ(told(kept.problems),
            "samples.csv:3: remark: line 3 is taken as the heading line; what stands above it is not read; if it is "
            "another, say heading = … in book.toml under [files.\"samples.csv\"] [heading/found]\n");
  WrittenBook twin;
  write_clean_twin(twin);
  const Book clean = twin.read();
  EXPECT_EQ(told(clean.problems), "");
  ASSERT_EQ(kept.samples.size(), clean.samples.size());
  for (Row row = 0; row < 2; ++row) {
    EXPECT_EQ(kept.samples.name[row], clean.samples.name[row]);
    EXPECT_EQ(kept.samples.started[row], clean.samples.started[row]);
    EXPECT_EQ(kept.samples.stopped[row], clean.samples.stopped[row]);
    EXPECT_EQ(shortest(field(kept.samples.nominal_l_min, row)), shortest(field(clean.samples.nominal_l_min, row)));
    EXPECT_EQ(field(kept.samples.temperature_k, row), field(clean.samples.temperature_k, row));
    EXPECT_EQ(kept.texts.text(field(kept.samples.note, row, TextId{0})), "");
    EXPECT_EQ(kept.readings.taken[row], clean.readings.taken[row]);
    EXPECT_EQ(kept.readings.sample[row], clean.readings.sample[row]);
    EXPECT_EQ(field(kept.readings.indicated_l_min, row), field(clean.readings.indicated_l_min, row));
    EXPECT_EQ(shortest(field(kept.readings.temperature_k, row)), shortest(field(clean.readings.temperature_k, row)));
    EXPECT_EQ(shortest(field(kept.readings.pressure_kpa, row)), shortest(field(clean.readings.pressure_kpa, row)));
  }
}

TEST(KeptRecords, TakesMarksOfItsOwnForEmptyCells) {
  WrittenBook book;
  book.file("book.toml", "time_zone = \"UTC\"\nempty = [\"x\"]\n");
  book.file("readings.csv",
            "taken,stage,sample,calibrator,reading [L/min],temperature [°C]\n"
            "2026-05-01T07:30,pre,S-1,VOL-1,2.0,X\n"
            "2026-05-01T07:31,pre,S-1,VOL-1,2.0,n/a\n");
  EXPECT_EQ(
      book.faults(),
      "readings.csv:3:36: error: 'n/a' is not a number; write digits with '.' as decimal sign; the unit belongs in "
      "the heading [cell/not-a-number]\n");
}

TEST(KeptRecords, RejectsNoRowForACellThatNothingLeansOn) {
  WrittenBook book;
  book.file("readings.csv",
            "taken,stage,sample,calibrator,reading [L/min],temperature [°C],humidity [%],void,note\n"
            "2026-05-01T07:30,pre,S-1,VOL-1,2.0,20,wet,yes,display froze\n"
            "2026-05-01T07:31,pre,S-1,VOL-1,2.0,warm,,yes,display froze\n"
            "2026-05-01T07:32,pre,S-1,VOL-1,2.0,20,,,\xFF\n");
  const Book read = book.read();
  EXPECT_EQ(read.problems.size(), 3U);
  for (const Diagnostic& problem : read.problems) EXPECT_EQ(problem.severity, Severity::remark) << problem.message;
  EXPECT_TRUE(read.readings.problem.empty());
  book.file(
      "readings.csv",
      "taken,stage,sample,calibrator,reading [L/min],temperature [°C]\n2026-05-01T07:30,pre,S-1,VOL-1,2.0,warm\n");
  EXPECT_EQ(book.read().readings.problem.size(), 1U) << "of a reading that counts";
}

TEST(KeptRecords, NeedsDateAndTimeOfDayOfAMoment) {
  WrittenBook book;
  book.file("samples.csv",
            "sample,pump,kind,started date,started time,stopped time\n"
            "S-1,PUMP-1,,2026-05-01,08:00,\n"
            "B-1,,blank,2026-05-01,,\n");
  EXPECT_EQ(book.faults(),
            "samples.csv:2:13: error: the cell under 'stopped' is empty; a sample needs its start and its stop; only a "
            "blank does without [cell/empty]\n");
  book.file("samples.csv", "sample,pump,started date,stopped\nS-1,PUMP-1,2026-05-01,2026-05-01T16:00\n");
  EXPECT_EQ(book.read().problems.front().message, "there is no column 'started time' beside 'started date'");
}

}  // namespace
}  // namespace driftwarden::kept_records_test
