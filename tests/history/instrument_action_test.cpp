// SPDX-License-Identifier: MIT
#include "history/instrument_action.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::instrument_action_test {
namespace {

using Texts = std::vector<std::string>;

BookText certified(const std::string& rows, const std::string& out_of_service = "") {
  BookText text;
  text.instruments =
      "instrument,kind,principle,out of service\nP1,pump,,\nV1,calibrator,volumetric," + out_of_service + "\n";
  text.certificates =
      "certificate,instrument,calibrated,due,tolerance [%],nominal [L/min],reference [L/min],as found [L/min],as left "
      "[L/min]\n" +
      rows;
  return text;
}

TEST(InstrumentAction, OfAnOverdueCalibratorIsToHaveItCalibrated) {
  const ReviewedBook book(certified("C1,V1,2026-01-05,2026-09-20,,2,2,2,2\n"));
  ASSERT_EQ(book.actions(), Texts{"Recalibrate V1"});
  EXPECT_EQ(book.review().actions[0].why[0].said,
            "It was due on 2026-09-20, 4 days ago; 1 sample has leaned on it since");
}

TEST(InstrumentAction, OfOneThatIsDueSoonIsToPlanIt) {
  EXPECT_EQ(ReviewedBook(certified("C1,V1,2026-01-05,2026-10-24,,2,2,2,2\n")).actions(),
            Texts{"Plan the calibration V1"});
  EXPECT_EQ(ReviewedBook(certified("C1,V1,2026-01-05,2026-09-24,,2,2,2,2\n")).actions(),
            Texts{"Plan the calibration V1"});
  EXPECT_EQ(ReviewedBook(certified("C1,V1,2026-01-05,2026-10-25,,2,2,2,2\n")).actions(), Texts{});
}

TEST(InstrumentAction, OfOneWithoutCertificateIsToFindIt) {
  const ReviewedBook book(certified("C1,V1,2026-12-05,,,2,2,2,2\n"));
  EXPECT_EQ(book.actions(), Texts{"Find the certificate V1"});
}

TEST(InstrumentAction, OfOneThatCameBackBeyondItsToleranceIsToLookBack) {
  const std::string rows = "C1,V1,2026-01-05,,2,2,2,2,2\nC2,V1,2026-09-22,,2,2,2,2.1,2\n";
  const ReviewedBook book(certified(rows));
  ASSERT_EQ(book.actions(), Texts{"Look back V1"});
  EXPECT_EQ(book.review().actions[0].why[0].said,
            "Error as found, worst point 5.0 % on 2026-09-22; the acceptance limit of certificate C2 is 2 %");
  EXPECT_EQ(ReviewedBook(certified(rows), {}, "2026-10-24").actions(), Texts{"(Look back V1)"});
  EXPECT_EQ(ReviewedBook(certified(rows, "2026-09-22")).actions(), Texts{"Look back V1"});
}

TEST(InstrumentAction, IsNoneForAnOverdueOneOutOfService) {
  EXPECT_EQ(ReviewedBook(certified("C1,V1,2026-01-05,2026-09-20,,2,2,2,2\n", "2026-09-20")).actions(), Texts{});
}

TEST(InstrumentAction, OfAPumpBeyondItsDriftIsToTakeItOut) {
  const ReviewedBook book({}, drift_within("2 %"));
  ASSERT_EQ(book.actions(), Texts{"Take out of use P1"});
  EXPECT_EQ(book.review().actions[0].why[0].said, "Drift per use -2.5 % on 2026-09-21; the limit of own/drift is -2 %");
}

// Seven monthly calibrations, the last on 2026-07-06; the band's early edge meets the tolerance 23.16 days later, the
// line 30.1 (as in the test of the interval advice).
BookText growing_error() {
  std::string rows;
  const std::vector<std::string> found{"2.0060", "2.0079", "2.0101", "2.0119", "2.0141", "2.0159", "2.0180"};
  for (std::size_t month = 1; month <= found.size(); ++month) {
    const std::string start = "2026-0" + std::to_string(month) + "-06";
    rows += "C" + start + ",V1," + start + ",2027-01-06,1,2,2," + found[month - 1] + ",\n";
  }
  return certified(rows);
}

TEST(InstrumentAction, HasNoDeadlineBeforeToday) {
  const auto what = [](const std::string& as_of) {
    const ReviewedBook book(growing_error(), {}, as_of);
    for (const ReviewAction& action : book.review().actions) {
      if (action.kind == ActionKind::adjust_soon) return action.what;
    }
    return std::string();
  };
  EXPECT_EQ(what("2026-07-28"), "Adjust it, or put another in its place, before 2026-07-29.");
  const std::string beyond = "It may be beyond it already: check it before it is used again, and adjust it.";
  EXPECT_EQ(what("2026-07-29"), beyond);
  EXPECT_EQ(what("2026-11-16"), beyond);
}

TEST(InstrumentAction, OfAPumpOutOfServiceIsNone) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,out of service\nP1,pump,,2026-09-22\nV1,calibrator,volumetric,\n"
      "V2,calibrator,volumetric,\n";
  EXPECT_EQ(ReviewedBook(text, drift_within("2 %")).actions(), Texts{"Sample again S1"});
}

TEST(InstrumentAction, OfARuleAboutAPumpIsToWatchIt) {
  const RulesText rules{{{Subject::pump, "drift.mean", "within", {"1 %"}, Otherwise::note}}};
  const ReviewedBook book({}, rules);
  ASSERT_EQ(book.actions(), Texts{"Watch P1"});
  EXPECT_EQ(book.review().actions[0].why[0].said,
            "On average the flow of P1 fell 2.5 % over a sample (1 sample); the limit is 1 %");
  EXPECT_EQ(book.review().actions[0].why[0].rule, "own/drift.mean");
}

TEST(InstrumentAction, TellsAnOverdueCalibratorOnce) {
  const RulesText rules{{{Subject::calibrator, "due", "at_least", {"0 d"}, Otherwise::qualify}}};
  const ReviewedBook book(certified("C1,V1,2026-01-05,2026-09-20,,2,2,2,2\n"), rules);
  ASSERT_EQ(book.actions(), Texts{"Recalibrate V1"});
  ASSERT_EQ(book.review().actions[0].why.size(), 1U);
  EXPECT_TRUE(book.review().actions[0].why[0].said.starts_with("It was due on 2026-09-20, "));
  EXPECT_EQ(book.review().actions[0].why[0].rule, "own/due");
  const RulesText earlier{{{Subject::calibrator, "due", "at_least", {"30 d"}, Otherwise::qualify}}};
  EXPECT_EQ(ReviewedBook(certified("C1,V1,2026-01-05,2026-09-20,,2,2,2,2\n"), earlier).review().actions[0].why.size(),
            2U);
}

TEST(ReviewedSeries, TakeTheDeviationForTheFlowItself) {
  BookText text;
  text.samples = "sample,pump,nominal [L/min],started,stopped\nS1,P1,2,2026-09-21T08:00,2026-09-21T16:00\n";
  const auto names = [](const ReviewedBook& book) {
    Texts found;
    for (const SeriesHistory* series : reviewed_series(book.histories()[0])) found.push_back(series->series.name);
    return found;
  };
  EXPECT_EQ(names(ReviewedBook(text)), (Texts{"pre-flow-deviation", "drift"}));
  EXPECT_EQ(names(ReviewedBook(BookText{})), (Texts{"pre-flow", "drift"}));
}

}  // namespace
}  // namespace driftwarden::instrument_action_test
