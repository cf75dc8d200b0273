// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::custody_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

BookText batch_text(const std::string& limit = "5 %") {
  BookText text = judged_text(limit);
  text.samples = "sample,batch,pump,started,stopped\nS1,TUNNEL-7,P1,2026-09-21T08:00,2026-09-21T16:00\n";
  return text;
}

TEST(Custody, PrintsTheSheetOfABatch) {
  const CalledBook book(batch_text());
  const Called called = call({"custody", book.path(), "--batch", "TUNNEL-7"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(called.out.starts_with("Quarry\nChain of custody, batch TUNNEL-7: 1 sample, 0 blanks")) << called.out;
}

TEST(Custody, AnswersOneWhereSomethingIsVoid) {
  const CalledBook book(batch_text("2 %"));
  EXPECT_EQ(call({"custody", book.path(), "--batch", "TUNNEL-7"}).status, 1);
}

TEST(Custody, OfAnUnknownBatchNamesTheNearest) {
  const CalledBook book(batch_text());
  const Called called = call({"custody", book.path(), "--batch", "TUNEL-7"});
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.out, "");
  EXPECT_TRUE(has(called.err, "the book has no batch 'TUNEL-7'; did you mean 'TUNNEL-7'?")) << called.err;
}

TEST(Custody, WritesToAFileButNeverOverTheBook) {
  const CalledBook book(batch_text());
  const std::string page = book.file("sheet.html");
  EXPECT_EQ(call({"custody", book.path(), "--batch", "TUNNEL-7", "--format", "html", "--out", page}).status, 0);
  EXPECT_TRUE(text_of_file(page).starts_with("<!DOCTYPE html>"));
  const std::string before = text_of_file(book.file("samples.csv"));
  EXPECT_EQ(call({"custody", book.path(), "--batch", "TUNNEL-7", "--out", book.file("samples.csv")}).status, 2);
  EXPECT_EQ(text_of_file(book.file("samples.csv")), before);
}

TEST(Custody, NeedsABatch) {
  const CalledBook book(batch_text());
  EXPECT_EQ(call({"custody", book.path()}).status, 2);
}

}  // namespace
}  // namespace driftwarden::custody_test
