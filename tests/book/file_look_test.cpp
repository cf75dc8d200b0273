// SPDX-License-Identifier: MIT
#include "book/file_look.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"
#include "book/written_workbook.hpp"

namespace driftwarden::file_look_test {
namespace {

using Headings = std::vector<std::pair<std::string, std::string>>;

FileLook look(const std::string& name, std::string_view text) {
  WrittenBook folder;
  folder.file(name, text);
  const FileLooks found = look_at(folder.folder() / name, name);
  return found.looks.empty() ? FileLook() : found.looks.front();
}

TEST(FileLook, KnowsTheTableByItsColumns) {
  EXPECT_EQ(look("a.csv", "taken,stage,sample,calibrator,reading [L/min]\n").table, "readings");
  EXPECT_EQ(look("a.csv", "instrument,kind,principle\n").table, "instruments");
  EXPECT_EQ(look("a.csv", "certificate,instrument,calibrated,nominal [L/min],reference [L/min]\n").table,
            "certificates");
  EXPECT_EQ(look("a.csv", "colour,shape\nred,round\n").table, "");
  EXPECT_EQ(look("c.xml", "<a/>").table, "certificates");
}

TEST(FileLook, TakesForATableThatFewKeepOnlyWhatIsCalledSo) {
  EXPECT_EQ(look("kits.csv", "kind of kit,item\n").table, "kits");
  EXPECT_EQ(look("plan/W46.csv", "sample,batch,pump\n").table, "plan");
  EXPECT_EQ(look("W46.csv", "sample,batch,pump\n").table, "samples");
  EXPECT_EQ(look("a.csv", "item,number,note\n").table, "");
  EXPECT_EQ(look("pooled.csv", "calibrator,before,s,degrees of freedom\n").table, "") << "split alone writes it";
}

TEST(FileLook, KnowsHowItIsKept) {
  const FileLook it = look("x.csv",
                           "Bench readings\n\nDay;Time;Stage;Sample;Calibrator;Flow (L/min);Mood\n"
                           "13.11.2026;6:16;pre;S-1;VOL-1;2,01;good\n14.11.2026;6:16;pre;S-1;VOL-1;2;bad\n");
  EXPECT_EQ(it.table, "readings");
  EXPECT_EQ(it.headings, (Headings{{"Day", "taken date"}, {"Time", "taken time"}, {"Flow", "reading"}}));
  EXPECT_EQ(it.dates, "day first");
  EXPECT_TRUE(it.has_decimal_commas);
  EXPECT_FALSE(it.is_order_open);
  EXPECT_EQ(it.unplaced, std::vector<std::string>{"Mood"});
  EXPECT_TRUE(it.lacking.empty());
}

TEST(FileLook, SaysWhatItCantTell) {
  const FileLook it = look("readings/x.csv", "taken,stage,reading [L/min]\n3/11/2026 6:16,pre,2\n");
  EXPECT_TRUE(it.is_order_open);
  EXPECT_EQ(it.dates, "");
  EXPECT_EQ(it.lacking, std::vector<std::string>{"calibrator"});
  EXPECT_FALSE(it.has_decimal_commas);
}

TEST(FileLook, IsOfEachSheetWithSomethingInIt) {
  WrittenBook folder;
  folder.file("w.ods", ods("<table:table table:name=\"week\"><table:table-row>"
                           "<table:table-cell office:value-type=\"string\"><text:p>taken</text:p></table:table-cell>"
                           "<table:table-cell office:value-type=\"string\"><text:p>stage</text:p></table:table-cell>"
                           "</table:table-row></table:table><table:table table:name=\"empty\"/>"));
  const FileLooks found = look_at(folder.folder() / "w.ods", "w.ods");
  ASSERT_EQ(found.looks.size(), 1U);
  EXPECT_EQ(found.looks[0].table, "readings");
  EXPECT_EQ(found.looks[0].sheet, "week");
}

TEST(FileLook, TellsWhatCantBeRead) {
  WrittenBook folder;
  folder.file("w.xlsx", "no workbook");
  EXPECT_EQ(look_at(folder.folder() / "w.xlsx", "w.xlsx").faults.front().id, "workbook/unreadable");
  EXPECT_EQ(look_at(folder.folder() / "nothing.csv", "nothing.csv").faults.front().id, "file/unreadable");
}

}  // namespace
}  // namespace driftwarden::file_look_test
