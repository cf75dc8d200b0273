// SPDX-License-Identifier: MIT
#include "book/planned_name.hpp"

#include <gtest/gtest.h>

#include "book/written_book.hpp"

namespace driftwarden::planned_name_test {
namespace {

// How a name becomes taken: tests/book/plan_file_test.cpp.

TEST(PlannedName, IsTakenByASampleOfAnotherBatch) {
  const Book book =
      WrittenBook()
          .file("samples.csv", "sample,pump,batch,started,stopped\nS-1,PUMP-1,B1,2026-05-02T08:00,2026-05-02T16:00\n")
          .file("plan.csv", "sample,batch,pump\nS-1,B2,PUMP-1\nS-9,B2,PUMP-1\n")
          .read();
  EXPECT_TRUE(is_name_taken(book, book.plan[0]));
  EXPECT_EQ(name_taken_text(book, book.plan[0]), "stands in samples.csv:2 already, in the batch 'B1'");
  EXPECT_FALSE(is_name_taken(book, book.plan[1]));
  PlannedSample as_recorded = book.plan[0];
  as_recorded.batch = "B1";
  EXPECT_FALSE(is_name_taken(book, as_recorded));
}

}  // namespace
}  // namespace driftwarden::planned_name_test
