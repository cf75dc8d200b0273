// SPDX-License-Identifier: MIT
// A table that grows and whose columns need not all be there: actions.csv.
#include <gtest/gtest.h>

#include "book/table_files.hpp"
#include "book/written_book.hpp"
#include "workshop/grown_table.hpp"

namespace driftwarden::grown_actions_test {
namespace {

std::vector<std::string> noted(const std::string& name, const std::string& note) {
  return {"2026-05-02T09:00+00:00", "site hygienist", "Watch", "instrument", name, "", "", "", note};
}

TEST(GrownActions, WritesManyRowsInOneGoAndSaysWhereEachStands) {
  const WrittenBook written;
  const Book book = written.read();
  const Result<std::vector<Place>> places =
      append_rows(book, {actions_spec, book.files.actions, {noted("P1", "two\nlines"), noted("P2", "one")}});
  ASSERT_TRUE(places && places->size() == 2U);
  EXPECT_EQ(to_text(places->at(0)) + ", " + to_text(places->at(1)), "actions.csv:2, actions.csv:4");
  const Book read = written.read();
  EXPECT_EQ(told(read.problems), "");
  ASSERT_EQ(read.assignments.size(), 2U);
  EXPECT_EQ(read.assignments[1].place.line, 4U);
}

TEST(GrownActions, LeavesOutAColumnThatTheFileLacksOnlyWhereNothingIsLost) {
  WrittenBook written;
  const std::string before = "written,by,action,about,name\n";
  written.file("actions.csv", before);
  const Book book = written.read();
  const Result<std::vector<Place>> lost = append_rows(book, {actions_spec, book.files.actions, {noted("P1", "seen")}});
  ASSERT_FALSE(lost);
  EXPECT_EQ(told(lost.faults()),
            "actions.csv:1: error: there is no column 'note' to write to; add 'note' to the heading line "
            "[table/no-column]\n");
  EXPECT_TRUE(append_rows(book, {actions_spec, book.files.actions, {noted("P1", "")}}));
  EXPECT_EQ(written.read().assignments.size(), 1U);
}

}  // namespace
}  // namespace driftwarden::grown_actions_test
