// SPDX-License-Identifier: MIT
#include "book/rows_received.hpp"

#include <gtest/gtest.h>

#include "book/table_files.hpp"
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
  EXPECT_EQ(readings->rows(), 1U);
  EXPECT_EQ(readings->form, "");
  const auto samples = of("sample,pump,started,stopped\nS-1,PUMP-1,,\nS-2,PUMP-1,,\n");
  ASSERT_TRUE(samples);
  EXPECT_EQ(samples->spec->table, "samples");
  EXPECT_EQ(samples->rows(), 2U);
}

TEST(RowsReceived, NameTheirFormInAColumnThatIsNotWritten) {
  const auto rows = of("form,sample,note,started\nB1/1,S-1,\"a, \"\"b\"\"\",\nB1/1,S-2,,\n\n");
  ASSERT_TRUE(rows);
  EXPECT_EQ(rows->form, "B1/1");
  EXPECT_EQ(rows->text(), "sample,note,started\nS-1,\"a, \"\"b\"\"\",\nS-2,,\n");
}

TEST(RowsReceived, MayHaveTheOwnersHeadingsAndSemicolons) {
  const auto rows =
      of("\xEF\xBB\xBF"
         "Clock;stage;sample;Meter;reading [L/min]\r\n2026-05-01T07:30;pre;S-1;VOL-1;2,0\r\n",
         "time_zone = \"UTC\"\n[headings.readings]\n\"Clock\" = \"taken\"\n\"Meter\" = \"calibrator\"\n");
  ASSERT_TRUE(rows) << to_text(rows.faults().front());
  EXPECT_EQ(rows->text(), "Clock,stage,sample,Meter,reading [L/min]\n2026-05-01T07:30,pre,S-1,VOL-1,\"2,0\"\n");
}

TEST(RowsReceived, AreRefusedWhereNobodyCanSayWhatTheyAre) {
  EXPECT_EQ(fault_of("fruit,colour\napple,red\n"), "receive/unknown-table");
  EXPECT_EQ(fault_of("sample,pump,started\n"), "receive/empty");
  EXPECT_EQ(fault_of("sample,started,warm-up\nS-1,,15\n"), "heading/no-unit") << "one heading alone is wrong";
  EXPECT_EQ(fault_of("taken,stage,sample,calibrator,reading\n2026-05-01T07:30,pre,S-1,VOL-1,2\n"), "heading/no-unit");
  EXPECT_EQ(fault_of("form,sample,started\nB1,S-1,\nB2,S-2,\n"), "receive/forms");
  EXPECT_EQ(fault_of("sample,started\n\"S-1,\n"), "csv/open-quote");
}

// Faults are told where whoever typed them finds them.
TEST(RowsReceived, KnowWhereTheyStoodInTheFileThatCame) {
  const auto rows =
      of("What we read\n\nform;taken;stage;sample;calibrator;reading [L/min];note\n"
         "F;2026-05-01T07:30;pre;S-1;VOL-1;\"2,0\";\"two\nlines\"\n;;;;;;\nF;2026-05-01T07:31;pre;S-2;VOL-1;2,1;\n");
  ASSERT_TRUE(rows) << to_text(rows.faults().front());
  const auto place = [&](std::uint32_t line, std::uint32_t column) {
    const Place at = rows->as_it_came({"", line, column});
    return std::to_string(at.line) + ":" + std::to_string(at.column);
  };
  EXPECT_EQ(place(1, 7), "3:12");   // the heading stage
  EXPECT_EQ(place(2, 32), "4:34");  // the figure of the first row
  EXPECT_EQ(place(4, 22), "7:24");  // the sample of the second
  EXPECT_EQ(place(4, 0), "7:0");
  EXPECT_EQ(to_text(rows->cell(4, "reading")).substr(to_text(rows->cell(4, "reading")).rfind(".csv")), ".csv:7:34");
  EXPECT_EQ(rows->cell(4, "humidity").column, 0U);
  EXPECT_EQ(rows->row_on(2), 0U);
  EXPECT_EQ(rows->row_on(3), 0U);
  EXPECT_EQ(rows->row_on(4), 1U);
}

TEST(RowsReceived, MayBeLessThanCame) {
  const auto rows = of("sample,started\nS-1,\nS-2,\nS-3,\n");
  ASSERT_TRUE(rows);
  const RowsReceived left = rows->without({0, 2});
  EXPECT_EQ(left.text(), "sample,started\nS-2,\n");
  EXPECT_EQ(left.rows(), 1U);
  EXPECT_EQ(left.as_it_came({"", 2, 1}).line, 3U);
  EXPECT_NE(left.name_on(20575), rows->name_on(20575));
}

// Another name for each content, though what may be struck out has no part in what is held against it.
TEST(RowsReceived, AreAlteredByAnythingButBeingStruckOut) {
  const std::string headings = "taken,stage,sample,calibrator,reading [L/min]";
  const auto rows = of(headings + "\n2026-05-01T07:30,pre,S-1,VOL-1,2.000\n");
  ASSERT_TRUE(rows);
  const std::string name = rows->name_on(20575);
  const auto is_other = [&](const std::string& text) {
    const std::string padded = text + std::string(64, '\0');
    Diagnostics none;
    const auto layout = read_layout({std::string_view(padded).substr(0, text.size()), name}, readings_spec, {}, none);
    return is_altered(name, std::string_view(padded).substr(0, text.size()), readings_spec, *layout);
  };
  EXPECT_FALSE(is_other(rows->text()));
  EXPECT_FALSE(is_other(headings + ",void,note\r\n2026-05-01T07:30,pre,S-1,VOL-1,2.000,yes,slipped off\r\n"));
  EXPECT_TRUE(is_other(headings + "\n2026-05-01T07:30,pre,S-1,VOL-1,2.001\n"));
  EXPECT_TRUE(is_other(headings + "\n2026-05-01T07:30,pre,S-1,VOL-1,2.000\n2026-05-01T07:31,pre,S-1,VOL-1,2.000\n"));
  EXPECT_TRUE(is_other("taken,stage,sample,calibrator,reading [mL/min]\n2026-05-01T07:30,pre,S-1,VOL-1,2.000\n"));
  EXPECT_NE(of(headings + ",void,note\n2026-05-01T07:30,pre,S-1,VOL-1,2.000,,\n")->name_on(20575),
            of(headings + ",void,note\n2026-05-01T07:30,pre,S-1,VOL-1,2.000,yes,slipped off\n")->name_on(20575));
}

TEST(RowsReceived, SayWhatAFileIsThatHoldsNone) {
  EXPECT_EQ(fault_of("PK\x03\x04 and so on"), "receive/workbook");
  EXPECT_EQ(fault_of("\xD0\xCF\x11\xE0 and so on"), "receive/workbook") << "of an older kind";
  EXPECT_EQ(fault_of("\xFF\xFEs"), "csv/not-utf-8");
  EXPECT_EQ(fault_of("sample,started\rS-1,\r"), "csv/line-ends");
  EXPECT_EQ(fault_of("sample,started,temperature [\xB0"
                     "C]\nS-1,,\n"),
            "csv/not-utf-8");
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
