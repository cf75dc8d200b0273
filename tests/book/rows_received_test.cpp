// SPDX-License-Identifier: MIT
#include "book/rows_received.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::rows_received_test {
namespace {

Result<RowsReceived> of(const std::string& text, const std::string& settings = "time_zone = \"UTC\"\n") {
  WrittenBook written;
  written.file("came.csv", text);
  return rows_received(written.folder() / "came.csv", *parse_settings(settings, "book.toml"));
}

std::string fault_of(const std::string& text) {
  const Result<RowsReceived> rows = of(text);
  return rows ? "" : rows.faults().front().id;
}

TEST(RowsReceived, AreReadingsOrSamplesByTheirHeadings) {
  const auto readings = of("taken,stage,sample,calibrator,reading [L/min]\n2026-05-01T07:30,pre,S-1,VOL-1,2.000\n");
  ASSERT_TRUE(readings);
  EXPECT_EQ(readings->spec->table, "readings");
  EXPECT_EQ(readings->rows, 1U);
  EXPECT_EQ(readings->form, "");
  const auto samples = of("sample,pump,started,stopped\nS-1,PUMP-1,,\nS-2,PUMP-1,,\n");
  ASSERT_TRUE(samples);
  EXPECT_EQ(samples->spec->table, "samples");
  EXPECT_EQ(samples->rows, 2U);
}

TEST(RowsReceived, NameTheirFormInAColumnThatIsNotWritten) {
  const auto rows = of("form,sample,note,started\nB1/1,S-1,\"a, \"\"b\"\"\",\nB1/1,S-2,,\n\n");
  ASSERT_TRUE(rows);
  EXPECT_EQ(rows->form, "B1/1");
  EXPECT_EQ(rows->text, "sample,note,started\nS-1,\"a, \"\"b\"\"\",\nS-2,,\n");
}

TEST(RowsReceived, MayHaveTheOwnersHeadingsAndSemicolons) {
  const auto rows =
      of("\xEF\xBB\xBF"
         "Clock;stage;sample;Meter;reading [L/min]\r\n2026-05-01T07:30;pre;S-1;VOL-1;2,0\r\n",
         "time_zone = \"UTC\"\n[headings.readings]\n\"Clock\" = \"taken\"\n\"Meter\" = \"calibrator\"\n");
  ASSERT_TRUE(rows) << to_text(rows.faults().front());
  EXPECT_EQ(rows->text, "Clock,stage,sample,Meter,reading [L/min]\n2026-05-01T07:30,pre,S-1,VOL-1,\"2,0\"\n");
}

TEST(RowsReceived, AreRefusedWhereNobodyCanSayWhatTheyAre) {
  EXPECT_EQ(fault_of("fruit,colour\napple,red\n"), "receive/unknown-table");
  EXPECT_EQ(fault_of("sample,pump,started\n"), "receive/empty");
  EXPECT_EQ(fault_of("form,sample,started\nB1,S-1,\nB2,S-2,\n"), "receive/forms");
  EXPECT_EQ(fault_of("sample,started\n\"S-1,\n"), "csv/open-quote");
}

TEST(RowsReceived, HaveAFileNameByWhatIsInThem) {
  const auto rows = of("sample,started\nS-1,\n");
  ASSERT_TRUE(rows);
  const std::string name = rows->name_on(20575);
  EXPECT_TRUE(name.starts_with("samples/received-2026-05-02-")) << name;
  EXPECT_EQ(name.size(), std::string("samples/received-2026-05-02-0123456789ab.csv").size());
  EXPECT_TRUE(is_received_name(name.substr(name.find('/') + 1)));
  EXPECT_FALSE(is_received_name("received-by-the-office.csv"));
  EXPECT_FALSE(is_received_name("received-2026-05-02-0123456789AB.csv"));
  EXPECT_EQ(of("sample,started\nS-1,\n")->name_on(20575), name);
  EXPECT_NE(of("sample,started\nS-2,\n")->name_on(20575), name);
}

}  // namespace
}  // namespace driftwarden::rows_received_test
