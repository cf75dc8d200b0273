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

// The limits are those of the readings: tests/book/readings_file_test.cpp.
TEST(FieldBatch, RefusesAirThatCannotBe) {
  const CalledBook book(planned());
  const auto told = [&](const std::string& command, const std::string& option, const std::string& said) {
    const Called called =
        call({command, book.path(), "--batch", "TUNNEL-8", option, said, "--out", book.file("s.html")});
    EXPECT_EQ(called.status == 2, !called.err.empty()) << called.err;
    return called.err;
  };
  EXPECT_EQ(
      told("sheet", "--pressure", "1013 kPa"),
      "command line: error: --pressure is '1013 kPa', which can't be; between 10 kPa and 200 kPa is plausible; is "
      "the unit right? [command/refused]\n");
  EXPECT_EQ(told("sheet", "--temperature", "150 °C"),
            "command line: error: --temperature is '150 °C', which can't be; between -93.15 °C and 126.85 °C is "
            "plausible; is the unit right? [command/refused]\n");
  EXPECT_EQ(
      told("form", "--humidity", "400 %"),
      "command line: error: --humidity is '400 %', which can't be; between 0 % and 100 % is plausible; is the unit "
      "right? [command/refused]\n");
  for (const auto& [option, said] : {std::pair{"--pressure", "84.5 hPa"}, std::pair{"--temperature", "-300 °C"},
                                     std::pair{"--humidity", "400"}, std::pair{"--humidity", "-1 %"}})
    EXPECT_TRUE(has(told("form", option, said), "which can't be")) << said;
  for (const auto& [option, said] : {std::pair{"--pressure", "1013 hPa"}, std::pair{"--pressure", "10 kPa"},
                                     std::pair{"--temperature", "-40 °C"}, std::pair{"--humidity", "100 %"}})
    EXPECT_EQ(told("sheet", option, said), "") << said;
}

}  // namespace
}  // namespace driftwarden::field_batch_test
