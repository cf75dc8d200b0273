// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::letter_command_test {
namespace {

TEST(LetterCommand, WritesThePageOfASample) {
  const CalledBook book(judged_text("5 %"));
  const std::string page = book.file("letter.html");
  const Called called = call({"letter", book.path(), "--sample", "S1", "--out", page});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_EQ(called.out, page + "\n");
  EXPECT_NE(text_of_file(page).find("<bdi>Sample S1</bdi>"), std::string::npos);
}

TEST(LetterCommand, AnswersOneWhereSomethingIsVoid) {
  const CalledBook book(judged_text("2 %"));
  EXPECT_EQ(call({"letter", book.path(), "--sample", "S1", "--out", book.file("letter.html")}).status, 1);
}

TEST(LetterCommand, WantsABatchOrASampleAndAPlaceThatIsNotTheBooks) {
  const CalledBook book(judged_text("5 %"));
  const std::string page = book.file("letter.html");
  EXPECT_EQ(call({"letter", book.path(), "--out", page}).status, 2);
  EXPECT_EQ(call({"letter", book.path(), "--sample", "S1"}).status, 2);
  EXPECT_EQ(call({"letter", book.path(), "--sample", "S1", "--batch", "B", "--out", page}).status, 2);
  EXPECT_EQ(call({"letter", book.path(), "--sample", "S9", "--out", page}).status, 2);
  EXPECT_EQ(call({"letter", book.path(), "--sample", "S1", "--out", book.file("samples.csv")}).status, 2);
}

}  // namespace
}  // namespace driftwarden::letter_command_test
