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

TEST(FieldBatch, TellsAirThatCannotBeRead) {
  const CalledBook book(planned());
  const Called called =
      call({"sheet", book.path(), "--batch", "TUNNEL-8", "--temperature", "warm", "--out", book.file("s.html")});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "--temperature is 'warm', which is no temperature")) << called.err;
}

}  // namespace
}  // namespace driftwarden::field_batch_test
