// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::field_batch_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

BookText planned() {
  BookText text;
  text.plan = "sample,batch,pump,calibrator\nS2,TUNNEL-8,P1,V1\n";
  return text;
}

TEST(FieldBatch, OfAnUnknownNameNamesTheNearest) {
  const CalledBook book(planned());
  const Called batch = call({"sheet", book.path(), "--batch", "TUNEL-8", "--out", book.file("s.html")});
  EXPECT_EQ(batch.status, 2);
  EXPECT_TRUE(has(batch.err, "the book has no batch 'TUNEL-8'; did you mean 'TUNNEL-8'?")) << batch.err;
  const Called calibrator =
      call({"sheet", book.path(), "--batch", "TUNNEL-8", "--calibrator", "P1", "--out", book.file("s.html")});
  EXPECT_EQ(calibrator.status, 2);
  EXPECT_TRUE(has(calibrator.err, "the book has no calibrator 'P1'")) << calibrator.err;
}

TEST(FieldBatch, TellsANameThatHasGoneToAnotherBatch) {
  BookText text = planned();
  text.plan = "sample,batch,pump,calibrator\nS1,TUNNEL-8,P1,V1\nS2,TUNNEL-8,P1,V1\n";
  const CalledBook book(text);
  for (const char* command : {"sheet", "form", "labels"}) {
    const Called called = call({command, book.path(), "--batch", "TUNNEL-8", "--out", book.file("s.html")});
    EXPECT_EQ(called.status, 0) << called.err;
    EXPECT_TRUE(has(called.err,
                    "plan.csv:2:1: remark: the sample 'S1' is planned for the batch 'TUNNEL-8', and its name "
                    "stands in samples.csv:2 already, without a batch"))
        << called.err;
  }
  EXPECT_TRUE(has(call({"check", book.path()}).err, "[plan/name-taken]"));
  text.plan = "sample,batch,pump,calibrator\nS1,TUNNEL-8,P1,V1\n";
  const CalledBook all_taken(text);
  const Called called = call({"sheet", all_taken.path(), "--batch", "TUNNEL-8", "--out", all_taken.file("s.html")});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err,
                  "every sample that plan.csv has for the batch 'TUNNEL-8' has a name that a sample of "
                  "another batch has already"))
      << called.err;
}

TEST(FieldBatch, TellsAirThatCannotBeRead) {
  const CalledBook book(planned());
  const Called called =
      call({"sheet", book.path(), "--batch", "TUNNEL-8", "--temperature", "warm", "--out", book.file("s.html")});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "--temperature is 'warm', which is no temperature")) << called.err;
}

}  // namespace
}  // namespace driftwarden::field_batch_test
