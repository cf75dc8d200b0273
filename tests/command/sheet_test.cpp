// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <filesystem>

#include "command/called.hpp"

namespace driftwarden::sheet_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

BookText planned() {
  BookText text;
  text.plan = "sample,batch,pump,calibrator,nominal [L/min]\nS2,B1,P1,V1,2\n";
  return text;
}

TEST(Sheet, WritesThePageAndNamesIt) {
  const CalledBook book(planned());
  const std::string page = book.file("sheets.html");
  const Called called = call({"sheet", book.path(), "--batch", "B1", "--out", page});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_EQ(called.out, page + "\n");
  EXPECT_TRUE(has(text_of_file(page), "<h1><bdi>P1</bdi></h1>"));
}

TEST(Sheet, IsNeverWrittenOverTheBook) {
  const CalledBook book(planned());
  const std::string before = text_of_file(book.file("plan.csv"));
  EXPECT_EQ(call({"sheet", book.path(), "--batch", "B1", "--out", book.file("plan.csv")}).status, 2);
  EXPECT_EQ(text_of_file(book.file("plan.csv")), before);
}

TEST(Sheet, HasRoomForTwoCalibrators) {
  const CalledBook book(planned());
  const Called called = call({"sheet", book.path(), "--batch", "B1", "--calibrator", "V1", "--calibrator", "V2",
                              "--calibrator", "V1", "--out", book.file("s.html")});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "name at most two with --calibrator")) << called.err;
  EXPECT_FALSE(std::filesystem::exists(book.file("s.html")));
}

}  // namespace
}  // namespace driftwarden::sheet_test
