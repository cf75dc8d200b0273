// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "command/called.hpp"

namespace driftwarden::screen_test {
namespace {

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(Screen, AnswersNoughtWhereEverySampleIsValidOrQualified) {
  const CalledBook valid(judged_text("5 %"));
  EXPECT_EQ(call({"screen", valid.path()}).status, 0);
  BookText text = judged_text("2 %");
  text.rules.replace(text.rules.find("\"void\""), 6, "\"qualify\"");
  text.rules.replace(text.rules.rfind("\"void\""), 6, "\"qualified\"");
  const CalledBook qualified(text);
  const Called called = call({"screen", qualified.path()});
  EXPECT_EQ(called.status, 0) << called.err;
  EXPECT_TRUE(has(called.out, "1 qualified")) << called.out;
}

TEST(Screen, AnswersOneWhereASampleIsVoidOrUndecided) {
  const CalledBook void_book(judged_text("2 %"));
  EXPECT_EQ(call({"screen", void_book.path()}).status, 1);
  BookText text = judged_text("5 %");
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n";
  const CalledBook undecided(text);
  const Called called = call({"screen", undecided.path()});
  EXPECT_EQ(called.status, 1);
  EXPECT_TRUE(has(called.out, "1 undecided")) << called.out;
}

TEST(Screen, AnswersTwoWhereARecordIsFaultyAndStillJudgesTheRest) {
  BookText text = judged_text("5 %");
  text.samples += "S2,P2,2026-09-21T08:00,2026-09-21T16:00\n";
  text.readings += "2026-09-21T07:30,pre,S2,V1,2.O00\n";
  const CalledBook book(text);
  const Called called = call({"screen", book.path()});
  EXPECT_EQ(called.status, 2);
  EXPECT_TRUE(has(called.out, "1 valid, 0 qualified, 1 undecided, 0 void")) << called.out;
  EXPECT_TRUE(has(called.err, "readings.csv:4:28: error: '2.O00' is not a number")) << called.err;
}

TEST(Screen, AnswersTwoWhereTheBookCannotBeUsed) { EXPECT_EQ(call({"screen", "/no/such/folder"}).status, 2); }

TEST(Screen, WritesATableUnlessAskedForSomethingElse) {
  const CalledBook book(judged_text());
  EXPECT_TRUE(has(call({"screen", book.path()}).out, "sample verdict"));
  EXPECT_TRUE(call({"screen", book.path(), "--format", "csv"}).out.starts_with("sample,batch,verdict,"));
  const auto json = nlohmann::json::parse(call({"screen", book.path(), "--format", "json"}).out);
  EXPECT_EQ(json["totals"]["void"], 1);
  EXPECT_EQ(json["as_of"], "2026-11-16");
}

TEST(Screen, StandsOnAnotherDayWhereAsked) {
  const CalledBook book(judged_text());
  const auto json =
      nlohmann::json::parse(call({"screen", book.path(), "--format", "json", "--as-of", "2026-10-05"}).out);
  EXPECT_EQ(json["as_of"], "2026-10-05");
}

TEST(Screen, WritesIntoAFileWhatItWouldHavePrinted) {
  const CalledBook book(judged_text());
  for (const char* format : {"table", "csv", "json"}) {
    const Called printed = call({"screen", book.path(), "--format", format});
    const Called written = call({"screen", book.path(), "--format", format, "--out", book.file("out.txt")});
    EXPECT_EQ(written.out, "");
    EXPECT_EQ(written.status, printed.status);
    EXPECT_EQ(text_of_file(book.file("out.txt")), printed.out);
  }
}

TEST(Screen, SaysWhenItsFileCannotBeWritten) {
  const CalledBook book(judged_text("5 %"));
  for (const auto& [file, why] : {std::pair(std::string("/dev/full"), "No space left on device"),
                                  std::pair(book.file("nowhere/out.csv"), "No such file or directory"),
                                  std::pair(book.path(), "Is a directory")}) {
    const Called called = call({"screen", book.path(), "--format", "csv", "--out", file});
    EXPECT_EQ(called.status, 2) << file;
    EXPECT_EQ(called.err, file + ": error: the results could not be written: " + why +
                              "; check the folder, its rights and the room on the disk [output/unwritable]\n");
  }
}

TEST(Screen, RefusesToReplaceAFileOfItsBook) {
  const CalledBook book(judged_text());
  const std::string before = text_of_file(book.file("samples.csv"));
  const Called called = call({"screen", book.path(), "--format", "csv", "--out", book.file("samples.csv")});
  EXPECT_EQ(called.status, 2);
  EXPECT_EQ(called.err, book.file("samples.csv") +
                            ": error: the results would replace a file of the book; name another file "
                            "[output/over-the-book]\n");
  EXPECT_EQ(text_of_file(book.file("samples.csv")), before);
}

TEST(Screen, HasColourOnATerminalOnlyAndNeverInAFile) {
  const CalledBook book(judged_text());
  EXPECT_FALSE(has(call({"screen", book.path()}).out, "\x1b["));
  EXPECT_TRUE(has(call({"screen", book.path()}, true).out, "\x1b["));
  EXPECT_FALSE(has(call({"screen", book.path(), "--format", "csv"}, true).out, "\x1b["));
  call({"screen", book.path(), "--out", book.file("out.txt")}, true);
  EXPECT_FALSE(has(text_of_file(book.file("out.txt")), "\x1b["));
}

TEST(Screen, JudgesOnlyWhatIsAskedFor) {
  BookText text = judged_text("5 %");
  text.samples += "S2,P2,2026-09-22T08:00,2026-09-22T16:00\n";
  const CalledBook book(text);
  EXPECT_EQ(call({"screen", book.path()}).status, 1);  // S2 was never read
  EXPECT_EQ(call({"screen", book.path(), "--sample", "S1"}).status, 0);
  EXPECT_EQ(call({"screen", book.path(), "--until", "2026-09-21"}).status, 0);
  EXPECT_EQ(call({"screen", book.path(), "--since", "2026-09-22"}).status, 1);
  EXPECT_EQ(call({"screen", book.path(), "--batch", "none"}).status, 2);
}

// More samples than one thread writes at a time, with a fault far down.
TEST(Screen, PrintsTheSameBytesWithAnyNumberOfThreads) {
  BookText text = judged_text("5 %");
  text.samples = "sample,batch,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (int i = 0; i < 5000; ++i) {
    const std::string name = "S" + std::to_string(i);
    const std::string post = i == 4321 ? "1.9O0" : "1." + std::to_string(850 + i % 149);
    text.samples += name + ",B-" + std::to_string(i / 7) + ",P1,2026-09-21T08:00,2026-09-21T16:00\n";
    text.readings += "2026-09-21T07:30,pre," + name + ",V1,2.000\n2026-09-21T16:10,post," + name + ",V1," + post + "\n";
  }
  const CalledBook book(text);
  for (const char* format : {"table", "csv", "json"}) {
    const Called first = call({"screen", book.path(), "--format", format, "--threads", "1"});
    EXPECT_EQ(first.status, 2);
    EXPECT_GT(first.out.size(), 200000U);
    for (const char* threads : {"2", "3", "4", "5"}) {
      const Called other = call({"screen", book.path(), "--format", format, "--threads", threads});
      EXPECT_TRUE(other.out == first.out) << format << " with " << threads;
      EXPECT_EQ(other.err, first.err);
    }
  }
}

}  // namespace
}  // namespace driftwarden::screen_test
