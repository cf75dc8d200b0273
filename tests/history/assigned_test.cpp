// SPDX-License-Identifier: MIT
#include "history/assigned.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::assigned_test {
namespace {

const ActionKey again{ActionKind::resample, ActionSubject::sample, "S1"};

Book book_with(const std::string& rows) {
  BookText text;
  text.actions = "written,by,action,about,name,who,due,done,note\n" + rows;
  return book_of(text);
}

TEST(Assigned, KeepsWhatALaterRowDoesNotSay) {
  const Book book = book_with(
      "2026-09-22T10:00,hygienist,Sample again,sample,S1,workshop,2026-09-30,,bring a spare\n"
      "2026-09-23T10:00,hygienist,Sample again,sample,S1,second shift,,,\n");
  const Assigned it = assigned_by(book, day("2026-09-24")).at(again);
  EXPECT_EQ(it.who, "second shift");
  EXPECT_EQ(it.due, day("2026-09-30"));
  EXPECT_EQ(it.note, "bring a spare");
  EXPECT_TRUE(it.is_open());
  EXPECT_EQ(it.last->place.line, 3U);
}

TEST(Assigned, IsDoneFromTheDayItWasWrittenUntilSomebodyTakesItBack) {
  const std::string done = "2026-09-23T10:00,hygienist,Sample again,sample,S1,,,yes,\n";
  const std::string back = "2026-09-24T10:00,hygienist,Sample again,sample,S1,,,no,\n";
  EXPECT_EQ(assigned_by(book_with(done), day("2026-09-24")).at(again).done, day("2026-09-23"));
  EXPECT_FALSE(assigned_by(book_with(back + done), day("2026-09-24")).at(again).is_done());
}

TEST(Assigned, CountsNoRowWrittenLater) {
  const Book book = book_with("2026-09-23T10:00,hygienist,Sample again,sample,S1,,,yes,\n");
  EXPECT_TRUE(assigned_by(book, day("2026-09-22")).empty());
}

TEST(Assigned, IsOfOneActionAlone) {
  const Book book = book_with("2026-09-22T10:00,hygienist,Sample again,instrument,S1,workshop,,,\n");
  EXPECT_EQ(assigned_by(book, day("2026-09-24")).count(again), 0U);
}

}  // namespace
}  // namespace driftwarden::assigned_test
