// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "book/written_book.hpp"

namespace driftwarden::actions_file_test {
namespace {

const std::string heading = "written,by,action,about,name,who,due,done,note\n";

Book book_with(const std::string& actions) { return WrittenBook().file("actions.csv", actions).read(); }

TEST(ActionsFile, FillsEveryFieldInTheOrderOfTheFile) {
  const Book book = book_with(heading +
                              "2026-05-02T09:00Z,site hygienist,Take out of use,instrument,PUMP-1,workshop,2026-05-09,,"
                              "ran hot\n2026-05-08T09:00Z,workshop,take OUT of use,instrument,PUMP-1,,,yes,\n");
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.assignments.size(), 2U);
  const Assignment& it = book.assignments[0];
  EXPECT_EQ(it.written, 1777712400);
  EXPECT_EQ(it.by, "site hygienist");
  EXPECT_EQ(it.action, (ActionKey{ActionKind::take_out, ActionSubject::instrument, "PUMP-1"}));
  EXPECT_EQ(it.who, "workshop");
  EXPECT_EQ(date_text(it.due), "2026-05-09");
  EXPECT_EQ(it.done, YesNo::unsaid);
  EXPECT_EQ(it.note, "ran hot");
  EXPECT_EQ(book.assignments[1].action, it.action);
  EXPECT_EQ(book.assignments[1].done, YesNo::yes);
  EXPECT_EQ(book.place_text(book.files.actions, book.assignments[1].place), "actions.csv:3");
}

TEST(ActionsFile, MayBeMissing) { EXPECT_TRUE(WrittenBook().read().assignments.empty()); }

TEST(ActionsFile, TellsEveryFaultAndTakesNoFaultyRow) {
  const Book book = book_with(heading +
                              "2026-05-02T09:00Z,,Wach,instrument,PUMP-1,workshop,tomorrow,perhaps,\n"
                              "2026-05-02T09:00Z,site hygienist,Watch,instrument,PUMP-1,,,,\n");
  const std::string faults = told(book.problems);
  for (const char* part :
       {"actions.csv:2:19: error: the cell under 'by' is empty",
        "'Wach' is no word for 'action'; did you mean 'Watch'?", "'tomorrow'", "'perhaps' is no word for 'done'"})
    EXPECT_NE(faults.find(part), std::string::npos) << part << " in " << faults;
  ASSERT_EQ(book.assignments.size(), 1U);
  EXPECT_EQ(book.assignments[0].place.line, 3U);
}

TEST(ActionsFile, ReadsBackTheCellsThatAreWritten) {
  Assignment it;
  it.written = 1777712400;
  it.by = "site hygienist";
  it.action = {ActionKind::look_back, ActionSubject::batch, "B, 1"};
  it.who = "workshop";
  it.due = 20'000;
  it.done = YesNo::no;
  it.note = "n";
  const std::vector<std::string> cells = cells_of(it, TimeZone::utc());
  EXPECT_EQ(cells.size(), actions_spec.fields.size());
  std::string row;
  for (const std::string& cell : cells) row += (row.empty() ? "\"" : ",\"") + cell + "\"";
  const Book book = book_with(heading + row + "\n");
  ASSERT_EQ(book.assignments.size(), 1U) << told(book.problems);
  const Assignment& read = book.assignments[0];
  EXPECT_EQ(read.action, it.action);
  EXPECT_EQ(read.due, it.due);
  EXPECT_EQ(read.done, YesNo::no);
}

}  // namespace
}  // namespace driftwarden::actions_file_test
