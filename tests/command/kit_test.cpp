// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "command/called.hpp"

namespace driftwarden::kit_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

BookText kit_text(const std::string& charged = "yes") {
  BookText text = judged_text("5 %");
  text.kits = "kind of kit,item,kind of instrument\ndust,pump,pump\ndust,hose,\n";
  text.issues = "kit,kind of kit,instrument,out,to,charged\nK-1,dust,P2,2026-09-01,north crew," + charged + "\n";
  return text;
}

TEST(Kit, ListsWhatIsOut) {
  const CalledBook book(kit_text());
  const Called called = call({"kit", book.path(), "--as-of", "2026-09-24"});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "  K-1        dust; out since 2026-09-01 with north crew\n")) << called.out;
  EXPECT_TRUE(has(call({"kit", book.path(), "--format", "json"}).out, "\"kit\":\"K-1\""));
  EXPECT_TRUE(has(call({"kit", book.path(), "--kit", "K-1", "--format", "json"}).out, "\"kits\":null"));
  EXPECT_TRUE(call({"kit", book.path(), "--format", "csv"}).out.starts_with("kit,kind_of_kit,"));
}

TEST(Kit, AnswersOneWhereSomethingInAKitIsNotFitToGo) {
  const CalledBook book(kit_text("no"));
  EXPECT_EQ(call({"kit", book.path(), "--as-of", "2026-09-24"}).status, 1);
  EXPECT_EQ(call({"kit", book.path(), "--as-of", "2026-09-24", "--kit", "K-1"}).status, 1);
}

TEST(Kit, AnswersOneWhereAKitIsOverdue) {
  BookText text = kit_text();
  text.issues = "kit,kind of kit,instrument,out,due back\nK-1,dust,P2,2026-09-01,2026-09-23\nK-2,dust,P1,2026-09-01,\n";
  const CalledBook book(text);
  EXPECT_EQ(call({"kit", book.path(), "--as-of", "2026-09-23"}).status, 0);
  EXPECT_EQ(call({"kit", book.path(), "--as-of", "2026-09-24"}).status, 1);
  EXPECT_EQ(call({"kit", book.path(), "--as-of", "2026-09-24", "--kit", "K-1"}).status, 1);
  EXPECT_EQ(call({"kit", book.path(), "--as-of", "2026-09-24", "--kit", "K-2"}).status, 0) << "the other one";
}

TEST(Kit, AnswersOneWhereSomethingIsNotFitToGoAndNobodySaysWhatIsInAKit) {
  BookText text = kit_text();
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-09-22,2,2,2\nC2,V2,2026-01-05,2026-10-05,2,2,2\n";
  EXPECT_EQ(call({"kit", CalledBook(text).path(), "--as-of", "2026-09-24"}).status, 0) << "P2 alone is out";
  text.issues.clear();
  const Called called = call({"kit", CalledBook(text).path(), "--as-of", "2026-09-24"});
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "  V1         past due")) << called.out;
}

TEST(Kit, TellsRowsOfIssuesThatContradictEachOther) {
  BookText text = kit_text();
  text.issues += "K-1,dust,P1,2026-09-01,south crew,yes\n";
  const Called called = call({"kit", CalledBook(text).path(), "--as-of", "2026-09-24"});
  EXPECT_TRUE(has(called.err, "is with 'south crew', and by issues.csv:2 'north crew'")) << called.err;
}

TEST(Kit, WritesTheListOfOneAsAPageButNeverOverTheBook) {
  const CalledBook book(kit_text());
  const std::string page = book.file("list.html");
  EXPECT_EQ(call({"kit", book.path(), "--kit", "K-1", "--out", page}).status, 0);
  EXPECT_TRUE(text_of_file(page).starts_with("<!DOCTYPE html>"));
  EXPECT_EQ(call({"kit", book.path(), "--kit", "K-1", "--out", book.file("issues.csv")}).status, 2);
  EXPECT_EQ(text_of_file(book.file("issues.csv")), kit_text().issues);
}

TEST(Kit, OfAnUnknownNameNamesTheNearest) {
  const CalledBook book(kit_text());
  const Called called = call({"kit", book.path(), "--kit", "dusk"});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.err, "there is no kit, and no kind of kit, called 'dusk'; did you mean 'dust'?"))
      << called.err;
}

TEST(Kit, RefusesAFormatThatIsOfTheOther) {
  const CalledBook book(kit_text());
  EXPECT_EQ(call({"kit", book.path(), "--format", "html"}).status, 2);
  EXPECT_EQ(call({"kit", book.path(), "--kit", "K-1", "--format", "csv"}).status, 2);
}

}  // namespace
}  // namespace driftwarden::kit_test
