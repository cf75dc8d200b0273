// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::form_test {
namespace {

BookText planned() {
  BookText text;
  text.plan = "sample,batch,pump,calibrator,nominal [L/min]\nS2,B1,P1,V1,2\n";
  return text;
}

TEST(Form, WritesThePageAndNamesIt) {
  const CalledBook book(planned());
  const std::string page = book.file("form.html");
  const Called called = call({"form", book.path(), "--batch", "B1", "--out", page});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_EQ(called.out, page + "\n");
  EXPECT_TRUE(text_of_file(page).starts_with("<!DOCTYPE html>"));
  EXPECT_EQ(call({"form", book.path(), "--batch", "B2", "--out", page}).status, 2);
  EXPECT_EQ(call({"form", book.path(), "--batch", "B1", "--out", book.file("plan.csv")}).status, 2);
}

}  // namespace
}  // namespace driftwarden::form_test
