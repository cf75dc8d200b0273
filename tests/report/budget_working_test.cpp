// SPDX-License-Identifier: MIT
#include "report/budget_working.hpp"

#include <gtest/gtest.h>

#include "assessment/worked_budget.hpp"

namespace driftwarden::budget_working_test {
namespace {

std::string working_of(const BookText& text) {
  JudgedBook book(text);
  return budget_working(book.result("S1"), book.book().settings.uncertainty);
}

bool contains(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

TEST(BudgetWorking, IsATableOfInputsAndThenTheFigures) {
  const std::string working = working_of(worked_book());
  // 1.002 · 2.0112 and 1.002 · 0.00128062; 240 min; 8.79 L is u of the volume, and (0.308 / 8.79)² is 0.1 %.
  EXPECT_TRUE(contains(
      working,
      "repeatability, pre                         2.01522   0.00128 L/min t              4    240.0   0.308    0.1\n"))
      << working;
  EXPECT_TRUE(contains(working, "certificate, pre and post")) << working;
  EXPECT_TRUE(
      contains(working, "drift       u = 0.0886 %, effective degrees of freedom 8, k = 2.31, U = 0.20 % (95 %)\n"))
      << working;
  EXPECT_TRUE(
      contains(working, "volume      u = 8.79 L, effective degrees of freedom > 9999, k = 1.96, U = 17 L (95 %)\n"))
      << working;
  EXPECT_TRUE(contains(working, "ref. volume u = 9.34 L")) << working;
  EXPECT_TRUE(contains(working, "Missing, so not counted: calibrator since its certificate\n")) << working;
}

TEST(BudgetWorking, NamesWhatIsMissing) {
  BookText text = worked_book();
  replace_all(text.instruments, "volumetric,0.001", "volumetric,");
  EXPECT_TRUE(
      contains(working_of(text),
               "Missing, so not counted: calibrator since its certificate; resolution, pre; resolution, post\n"))
      << working_of(text);
}

TEST(BudgetWorking, TellsTheSizeOfWhatIsMissingWhereTheBookDoes) {
  BookText text = worked_book();
  replace_all(text.certificates, "calibrated,", "calibrated,tolerance [%],");
  replace_all(text.certificates, "2026-01-05,", "2026-01-05,1.5,");
  EXPECT_TRUE(contains(working_of(text), "calibrator since its certificate (within 1.5 % by the tolerance)\n"))
      << working_of(text);
}

TEST(BudgetWorking, StatesNoFigureThatLeansOnAMissingInput) {
  BookText text = worked_book();
  replace_all(text.certificates, ",0.020,2\n", ",,\n");
  const std::string working = working_of(text);
  EXPECT_TRUE(contains(working, "volume      not stated: an input that it leans on is missing\n")) << working;
  EXPECT_TRUE(contains(working, "drift       u = 0.0886 %")) << working;
}

TEST(BudgetWorking, OfASampleWithoutFlowsIsEmpty) {
  BookText text = worked_book();
  text.readings = text.readings.substr(0, text.readings.find("2026-09-21T16:10"));
  EXPECT_EQ(working_of(text), "");
}

TEST(BudgetWorking, SaysWhatTheFlowBetweenTheChecksRestsOn) {
  BookText text = sagging_book();
  const auto says = [](const BookText& of, const std::string& words) {
    std::string flat = working_of(of);
    for (std::size_t at = 0; (at = flat.find("\n  ", at)) != std::string::npos;) flat.replace(at, 3, " ");
    EXPECT_NE(flat.find(words), std::string::npos) << flat;
  };
  says(text,
       "Flow between the checks: no earlier use of the pump tells more, so 1.0 % of the flow, by this program's own "
       "choice (flow_between in [uncertainty] says another).");
  text.settings += "[uncertainty]\nflow_between = \"0.4 %\"\n";
  says(text, "so 0.40 % of the flow, by flow_between in [uncertainty] of the book.");
  text.readings.replace(text.readings.find("post,S1,V1,2.001"), 16, "post,S1,V1,1.901");
  says(text, "Flow between the checks: half of the difference between them; no earlier use of the pump tells more.");
}

}  // namespace
}  // namespace driftwarden::budget_working_test
