// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "book/stamp_text.hpp"
#include "book/written_book.hpp"

namespace driftwarden::plan_file_test {
namespace {

Book book_with(const std::string& plan) { return WrittenBook().file("plan.csv", plan).read(); }

TEST(PlanFile, FillsEveryFieldInTheOrderOfTheFile) {
  const Book book = book_with(
      "sample,batch,kind,pump,calibrator,sampler,nominal [mL/min],method,analysis,medium,target [µg/m3],expected "
      "[mg/m3],"
      "day,note\n"
      "S-2,B1,sample,PUMP-1,VOL-1,cowl,1500,method 7,dust,C-1,50,2,2026-05-02,at the face\n"
      "K-1,B1,blank,,,,,,,,,,,\n");
  EXPECT_EQ(told(book.problems), "");
  ASSERT_EQ(book.plan.size(), 2U);
  const PlannedSample& it = book.plan[0];
  EXPECT_EQ(it.name, "S-2");
  EXPECT_EQ(it.batch, "B1");
  EXPECT_EQ(it.kind, SampleKind::sample);
  EXPECT_EQ(it.pump, 0U);
  EXPECT_EQ(it.calibrator, 1U);
  EXPECT_EQ(it.sampler, "cowl");
  EXPECT_EQ(it.nominal_l_min, 1.5);
  EXPECT_EQ(it.method, "method 7");
  EXPECT_EQ(it.analysis, "dust");
  EXPECT_EQ(it.medium, "C-1");
  EXPECT_EQ(it.target_mg_m3, 0.05);
  EXPECT_EQ(it.expected_mg_m3, 2);
  EXPECT_EQ(date_text(it.day), "2026-05-02");
  EXPECT_EQ(it.note, "at the face");
  EXPECT_EQ(book.plan[1].kind, SampleKind::blank);
  EXPECT_EQ(book.plan[1].pump, no_row);
  EXPECT_EQ(book.plan[1].day, no_day);
  EXPECT_TRUE(is_missing(book.plan[1].target_mg_m3));
}

TEST(PlanFile, RefusesAConcentrationThatIsNone) {
  EXPECT_NE(told(book_with("sample,batch,target [mg/m3]\nS-2,B1,0\n").problems).find("plan.csv:2:8: error: "),
            std::string::npos);
}

TEST(PlanFile, MayBeMissingAndIsNoSamples) {
  EXPECT_TRUE(WrittenBook().read().plan.empty());
  const Book book = book_with("sample,batch,pump\nS-2,B1,PUMP-1\n");
  EXPECT_EQ(book.samples.size(), 1U);
}

TEST(PlanFile, TellsEveryFaultAndTakesNoFaultyRow) {
  const Book book = book_with(
      "sample,batch,pump,calibrator,day\nS-2,B1,PUMP-9,,\nS-3,B1,PUMP-1,PUMP-1,\nS-4,,PUMP-1,,\nS-5,B1,PUMP-1,,soon\n"
      "S-6,B1,PUMP-1,,\nS-6,B1,PUMP-1,,\n");
  const std::string problems = told(book.problems);
  for (const char* part :
       {"plan.csv:2:8: error: ", "[plan/unknown-pump]", "plan.csv:3:15: error: ", "[plan/unknown-calibrator]",
        "plan.csv:4:5: error: the cell under 'batch' is empty", "plan.csv:5:16: error: ",
        "plan.csv:7:1: error: the sample 'S-6' is planned already in plan.csv:6; give each sample a "
        "name of its own [plan/twice]\n"})
    EXPECT_NE(problems.find(part), std::string::npos) << part << "\n" << problems;
  ASSERT_EQ(book.plan.size(), 1U);
  EXPECT_EQ(book.plan[0].place.line, 6U);
}

TEST(PlanFile, TellsANameThatHasGoneToASampleOfAnotherBatch) {
  const auto planned = [](const std::string& batch_recorded) {
    const Book book = WrittenBook()
                          .file("samples.csv", "sample,pump,batch,started,stopped\nS-1,PUMP-1," + batch_recorded +
                                                   ",2026-05-02T08:00,2026-05-02T16:00\n")
                          .file("plan.csv", "sample,batch,pump\nS-9,B2,PUMP-1\nS-1,B2,PUMP-1\n")
                          .read();
    EXPECT_EQ(book.plan.size(), 2U);
    EXPECT_EQ(book.plan[0].recorded, no_row);
    EXPECT_EQ(book.plan[1].recorded, 0U);
    return told(book.problems);
  };
  EXPECT_EQ(
      planned("B1"),
      "plan.csv:3:1: remark: the sample 'S-1' is planned for the batch 'B2', and its name stands in samples.csv:2 "
      "already, in the batch 'B1': no sheet and no form has it; give it another name; or correct the batch that "
      "is wrong [plan/name-taken]\n");
  EXPECT_NE(planned("").find("samples.csv:2 already, without a batch:"), std::string::npos);
  EXPECT_EQ(planned("B2"), "") << "it was taken as planned";
}

TEST(PlanFile, TellsAnInstrumentThatIsOutOfServiceOnTheDay) {
  const auto told_of = [](const std::string& rows) {
    return told(WrittenBook()
                    .file("instruments.csv",
                          "instrument,kind,principle,in service,out of service\n"
                          "PUMP-1,pump,,2026-05-01,2026-05-10\nVOL-1,calibrator,volumetric,,2026-05-10\n")
                    .file("plan.csv", "sample,batch,pump,calibrator,day\n" + rows)
                    .read()
                    .problems);
  };
  EXPECT_EQ(told_of("S-9,B1,PUMP-1,VOL-1,2026-05-09\n"), "");
  EXPECT_EQ(
      told_of("S-9,B1,PUMP-1,,2026-05-10\n"),
      "plan.csv:2:8: remark: PUMP-1 is out of service since 2026-05-10, and 'S-9' is still to be taken with it, on "
      "2026-05-10; plan another instrument, or correct the day that is wrong [plan/out-of-service]\n");
  EXPECT_NE(told_of("S-9,B1,,VOL-1,\n")
                .find("VOL-1 is out of service since 2026-05-10, and 'S-9' is still to be taken "
                      "with it; plan"),
            std::string::npos);
  EXPECT_NE(told_of("S-9,B1,PUMP-1,,2026-04-30\n").find("PUMP-1 is in service from 2026-05-01, and"),
            std::string::npos);
  EXPECT_EQ(told_of("S-9,B1,PUMP-1,,2026-05-01\n"), "");
  EXPECT_EQ(told_of("S-1,B1,PUMP-1,,2026-06-01\n").find("plan/out-of-service"), std::string::npos)
      << "it is recorded already";
}

}  // namespace
}  // namespace driftwarden::plan_file_test
