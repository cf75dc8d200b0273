// SPDX-License-Identifier: MIT
#include "history/action_cause.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::action_cause_test {
namespace {

using Texts = std::vector<std::string>;

// "kind: names; kind: names" of what an action touches.
std::string touched(const ReviewAction& action) {
  std::string text;
  for (const TouchedPart& part : action.touched) {
    text += (text.empty() ? "" : "; ") + std::string(to_text(part.kind)) + ":";
    for (const Touched& member : part.members) text += " " + member.name;
  }
  return text;
}

RulesText overdue_is_remarked() {
  return {{{Subject::sample, "calibrator.overdue", "at_most", {"0 d"}, Otherwise::qualify}}};
}

// Three samples of one pump in a week, in two batches, read with one calibrator.
BookText three_samples(const std::string& due) {
  BookText text;
  text.instruments = "instrument,kind,principle,out of service\nP1,pump,,\nV1,calibrator,volumetric,\n";
  text.samples = "sample,batch,pump,started,stopped\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  for (const std::string n : {"1", "2", "3"}) {
    const std::string day = "2026-09-2" + n;
    text.samples += "S" + n + (n == "3" ? ",B" : ",A") + ",P1," + day + "T08:00," + day + "T16:00\n";
    text.readings += day + "T07:30,pre,S" + n + ",V1,2.000\n" + day + "T16:10,post,S" + n + ",V1,1.990\n";
  }
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as found [L/min],as left "
      "[L/min]\nC1,V1,2026-01-05," +
      due + ",2,2,2,2\n";
  return text;
}

TEST(ActionCause, AnOverdueCalibratorAndTheSamplesItTouchedAreOneAction) {
  const ReviewedBook book(three_samples("2026-09-01"), overdue_is_remarked());
  ASSERT_EQ(book.actions(), Texts{"Recalibrate V1"});
  EXPECT_EQ(touched(book.review().actions[0]), "Weigh the finding: S1; Weigh the finding: S2; Weigh the finding: S3");
  EXPECT_EQ(book.review().actions[0].samples(), 3U);
}

// Read before with one and after with the other, and both have to be calibrated: it is no third thing to do.
TEST(ActionCause, ASampleOfTwoOverdueCalibratorsIsPartOfTheFirstOfTheirActions) {
  BookText text = three_samples("2026-09-01");
  text.instruments += "V2,calibrator,volumetric,\n";
  text.readings.replace(text.readings.rfind("V1"), 2, "V2");
  const std::string in_date = text.certificates + "C2,V2,2026-01-05,2027-09-01,2,2,2,2\n";
  text.certificates += "C2,V2,2026-01-05,2026-09-01,2,2,2,2\n";
  const ReviewedBook book(text, overdue_is_remarked());
  ASSERT_EQ(book.actions(), (Texts{"Recalibrate V1", "Recalibrate V2"}));
  EXPECT_EQ(touched(book.review().actions[0]), "Weigh the finding: S1; Weigh the finding: S2; Weigh the finding: S3");
  EXPECT_EQ(touched(book.review().actions[1]), "");
  text.certificates = in_date;
  EXPECT_EQ(ReviewedBook(text, overdue_is_remarked()).actions(), Texts{"Recalibrate V1"});
}

TEST(ActionCause, SamplesOfACalibratorThatWasOverdueAreOneActionWhenItNoLongerIs) {
  BookText text = three_samples("2026-09-01");
  text.certificates += "C2,V1,2026-09-24,2027-09-24,2,2,2,2\n";
  const ReviewedBook book(text, overdue_is_remarked());
  ASSERT_EQ(book.actions(), Texts{"Weigh the finding V1"});
  EXPECT_EQ(book.review().actions[0].why[0].said, "3 samples were read with it when its papers were not in order");
}

TEST(ActionCause, ABatchWithOneRemarkThroughoutIsOneAction) {
  const RulesText rules{{{Subject::sample, "minutes", "at_least", {"600 min"}, Otherwise::qualify}}};
  const ReviewedBook book(three_samples("2027-01-05"), rules);
  ASSERT_EQ(book.actions(), (Texts{"Weigh the finding A", "Weigh the finding S3"}));
  EXPECT_EQ(touched(book.review().actions[0]), "Weigh the finding: S1 S2");
  EXPECT_EQ(book.review().actions[0].why[0].said, "The same of 2 of its 2 samples and blanks");
}

TEST(ActionCause, APumpOutOfToleranceHoldsTheSamplesItSpoilt) {
  const ReviewedBook book({}, drift_within("2 %"));
  ASSERT_EQ(book.actions(), Texts{"Take out of use P1"});
  EXPECT_EQ(touched(book.review().actions[0]), "Sample again: S1");
}

// Read with V1 before, with V2 after, which is found to be 5 % high after the use.
BookText of_two_calibrators(const std::string& found_on) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,out of service\nP1,pump,,\nV1,calibrator,volumetric,\nV2,calibrator,volumetric,\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n"
      "2026-09-21T07:30,pre,S1,V1,2.000\n2026-09-21T16:10,post,S1,V2,2.100\n";
  text.certificates =
      "certificate,instrument,calibrated,due,tolerance [%],nominal [L/min],reference [L/min],as found [L/min],as left "
      "[L/min]\nC1,V1,2026-01-05,2027-01-05,2,2,2,2,2\nC2,V2,2026-01-05,2027-01-05,2,2,2,2,2\nC3,V2," +
      found_on + ",2027-01-05,2,2,2,2.1,2\n";
  return text;
}

TEST(ActionCause, APumpThatAWrongCalibratorMakesLookBadIsNotTakenOut) {
  const ReviewedBook book(of_two_calibrators("2026-09-23"), drift_within("2 %"));
  ASSERT_EQ(book.actions(), Texts{"Look back V2"});
  const ReviewAction& action = book.review().actions[0];
  EXPECT_EQ(touched(action), "Sample again: S1; Take out of use: P1");
  for (const TouchedPart& part : action.touched) EXPECT_EQ(part.what.find("Wait for the look-back"), 0U) << part.what;
}

// The calibrator was right again when the pump was read.
TEST(ActionCause, APumpReadAfterTheCalibratorWasSetRightIsTakenOut) {
  EXPECT_EQ(ReviewedBook(of_two_calibrators("2026-09-20"), drift_within("2 %")).actions(),
            (Texts{"Look back V2", "Take out of use P1"}));
}

// A calibrator's error is not in the ratio of two flows that were read with it.
TEST(ActionCause, ADriftReadWithOneCalibratorIsThePumps) {
  BookText text = of_two_calibrators("2026-09-23");
  for (std::size_t at = text.readings.find("V1"); at != std::string::npos; at = text.readings.find("V1"))
    text.readings.replace(at, 2, "V2");
  EXPECT_EQ(ReviewedBook(text, drift_within("2 %")).actions(), (Texts{"Look back V2", "Take out of use P1"}));
}

ReviewAction made(ActionKind kind, ActionSubject of, const std::string& name, Row row) {
  return {kind, of, name, "Do it.", {{"said of " + name, ""}}, row, true};
}

TEST(ActionCause, WhatPumpsSayOfACalibratorHoldsThemUntilItIsChecked) {
  const ReviewedBook book(of_two_calibrators("2026-09-23"));
  const Row v2 = 2;
  ReviewAction pump = made(ActionKind::take_out, ActionSubject::instrument, "P1", 0);
  pump.origin.error = {{v2, day("2026-09-21")}};
  const auto actions = by_cause(book.screening().book(),
                                {pump, made(ActionKind::check_calibrator, ActionSubject::instrument, "V2", v2)});
  ASSERT_EQ(actions.size(), 1U);
  EXPECT_EQ(touched(actions[0]), "Take out of use: P1");
  EXPECT_TRUE(actions[0].concerns(ActionSubject::instrument, 0));
}

TEST(ActionCause, InstrumentsOfWhichTheSameIsSaidComeTogether) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,out of service\nP1,pump,,\nV1,calibrator,volumetric,\n"
      "V2,calibrator,volumetric,\n";
  text.certificates =
      "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-12-05,2,2,2\n";
  const ReviewedBook book(text, {}, "2026-10-24");
  ASSERT_EQ(book.actions(), Texts{"(Find the certificate V1)"});
  EXPECT_EQ(touched(book.review().actions[0]), "Find the certificate: V2");
  EXPECT_TRUE(book.review().actions[0].touched[0].is_the_same);
}

}  // namespace
}  // namespace driftwarden::action_cause_test
