// SPDX-License-Identifier: MIT
#include "history/kits_out.hpp"

#include <gtest/gtest.h>

#include "history/reviewed_book.hpp"

namespace driftwarden::kits_out_test {
namespace {

using Texts = std::vector<std::string>;

BookText with(const std::string& issues) {
  BookText text;
  text.issues = "kit,instrument,item,out,to,due back,charged,back,condition,missing\n" + issues;
  return text;
}

std::string unfit(const BookText& text, const std::string& as_of = "2026-09-24") {
  const ReviewedBook book(text, {}, as_of);
  std::string told;
  for (const UnfitInstrument& each : book.review().kits.unfit) {
    told += book.screening().book().instruments[each.instrument].name + ":";
    for (const std::string& why : each.why) told += " " + why + ";";
    told += " " + each.where + "\n";
  }
  return told;
}

TEST(KitsOut, AreGroupedByKitAndTheDayTheyWent) {
  const ReviewedBook book(
      with("K-1,P1,,2026-09-20,north crew,2026-09-22,,,,\nK-1,,hose,2026-09-20,,,,,,\n"
           "K-2,P2,,2026-09-20,,2026-09-24,,,,\nK-3,V1,,,,,,,,\nK-4,V2,,2026-09-01,,,,2026-09-05,good,\n"
           "K-5,V2,,2026-09-25,,,,,,\n"));
  const KitsOut& kits = book.review().kits;
  ASSERT_EQ(kits.out.size(), 2U) << "K-4 is back, K-5 goes out tomorrow";
  EXPECT_EQ(kits.out[0].kit(), "K-1");
  EXPECT_EQ(kits.out[0].things.size(), 2U);
  EXPECT_EQ(kits.out[0].overdue_d(day("2026-09-24")), 2);
  EXPECT_EQ(kits.out[1].overdue_d(day("2026-09-24")), 0) << "it is due on this day";
  ASSERT_EQ(kits.being_packed.size(), 1U);
  EXPECT_EQ(kits.being_packed[0].kit(), "K-3");
}

TEST(KitsOut, AreOutAgainOnADayBeforeTheyCameBack) {
  const BookText text = with("K-1,P1,,2026-09-20,,,,2026-09-23,,yes\n");
  EXPECT_EQ(ReviewedBook(text, {}, "2026-09-22").review().kits.out.size(), 1U);
  EXPECT_EQ(ReviewedBook(text, {}, "2026-09-22").review().kits.missing.size(), 0U);
  EXPECT_EQ(ReviewedBook(text, {}, "2026-09-23").review().kits.missing.size(), 1U);
}

TEST(KitsOut, SayOfTheWholeWhatOneOfTheirRowsSays) {
  BookText text;
  text.issues =
      "kit,kind of kit,instrument,item,out,to,due back\nK-1,,P1,,2026-09-20,,2026-09-29\n"
      "K-1,dust,,hose,2026-09-20,,2026-09-22\nK-1,noise,P2,,2026-09-20,north crew,\n"
      "K-2,,V1,,,south crew,2026-09-22\n";
  const ReviewedBook book(text);
  const KitOut& kit = book.review().kits.out.at(0);
  EXPECT_EQ(kit.kind, "dust");
  EXPECT_EQ(kit.to, "north crew");
  EXPECT_EQ(kit.due_back, day("2026-09-22"));
  EXPECT_EQ(kit.overdue_d(day("2026-09-24")), 2) << "what is to be back first is";
  const KitOut& packed = book.review().kits.being_packed.at(0);
  EXPECT_EQ(packed.kind, "K-2");
  EXPECT_EQ(packed.overdue_d(day("2026-09-24")), 0) << "it has not gone out";
}

TEST(KitsOut, KnowWhatIsMissingWhereNobodySaysWhenItWentOut) {
  const ReviewedBook book(with("K-1,P1,,,,,,,,yes\nK-2,P1,,2026-09-01,,,,2026-09-04,good,\n"));
  ASSERT_EQ(book.review().kits.missing.size(), 1U) << "it came back before";
  EXPECT_EQ(book.review().kits.missing[0]->kit, "K-1");
  EXPECT_TRUE(book.review().kits.being_packed.empty());
}

TEST(KitsOut, AskForActionWhenOverdueOrMissing) {
  const ReviewedBook book(
      with("K-1,P1,,2026-09-20,north crew,2026-09-22,,,,\nK-1,,hose,2026-09-01,,,,2026-09-04,,yes\n"
           "K-2,,hose,2026-09-01,,,,2026-09-04,,yes\nK-2,P2,,2026-09-01,,,,2026-09-04,,yes\n"
           "K-3,P2,,2026-09-20,,,,,,\n"));
  EXPECT_EQ(book.actions(), (Texts{"Bring it back K-1", "Bring it back K-2"}));
  const ReviewAction& action = book.review().actions[0];
  EXPECT_EQ(action.of, ActionSubject::kit);
  ASSERT_EQ(action.why.size(), 2U);
  EXPECT_EQ(action.why[0].said, "It was due back 2 days ago, on 2026-09-22; north crew has it");
  EXPECT_EQ(action.why[1].said, "hose is missing since the kit came back on 2026-09-04");
  EXPECT_EQ(book.review().actions[1].why.size(), 1U) << "P2 went out again: it has turned up";
}

TEST(KitsOut, AskForNothingInABookWithoutThem) {
  const ReviewedBook book{BookText()};
  EXPECT_TRUE(book.review().kits.unfit.empty());
  EXPECT_EQ(book.actions(), Texts());
}

TEST(UnfitToGo, IsWhatIsPastDueWhereverItIs) {
  BookText text = with("K-1,V1,,2026-09-20,north crew,,,,,\n");
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-09-22,2,2,2\nC2,V2,2026-01-05,2026-10-05,2,2,2\n";
  EXPECT_EQ(unfit(text), "V1: past due: it was due on 2026-09-22, 2 days ago; out with north crew (kit K-1)\n");
  EXPECT_EQ(unfit(text, "2026-10-06"),
            "V1: past due: it was due on 2026-09-22, 14 days ago; out with north crew (kit K-1)\n"
            "V2: past due: it was due on 2026-10-05, 1 day ago; \n");
}

// It does not depend on whether anybody writes down what goes out.
TEST(UnfitToGo, IsWhatIsPastDueInABookWithoutIssuesToo) {
  BookText text;
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-09-22,2,2,2\nC2,V2,2026-01-05,2026-10-05,2,2,2\n";
  for (const char* issues : {"", "kit,instrument,item,out\n", "kitt,instrument\nK-1,P1\n"}) {
    text.issues = issues;
    EXPECT_EQ(unfit(text), "V1: past due: it was due on 2026-09-22, 2 days ago; \n") << issues;
  }
}

TEST(KitsOut, SayWhatIsNotKnown) {
  const auto not_known = [](const std::string& issues) {
    BookText text;
    text.issues = issues;
    return ReviewedBook(text).review().kits.not_known;
  };
  const std::string what =
      ": which kits are out, overdue or missing, and what is not charged, came back damaged or will be due before it "
      "is back, is not known.";
  EXPECT_EQ(not_known(""), "The book has no issues.csv" + what);
  EXPECT_EQ(not_known("kit,instrument\n"), "issues.csv has no rows" + what);
  EXPECT_EQ(not_known("kitt,instrument\nK-1,P1\n"), "No row of issues.csv could be used" + what);
  EXPECT_EQ(not_known("kit,instrument\nK-1,P1\nK-1,P7\n"),
            "1 fault in issues.csv: what those rows say of kits is left out.");
  EXPECT_EQ(not_known("kit,instrument\nK-1,P1\n"), "");
}

TEST(UnfitToGo, IsWhatWillBeDueBeforeItIsBack) {
  BookText text = with("K-1,V1,,2026-09-20,,2026-09-30,,,,\n");
  text.certificates =
      "certificate,instrument,calibrated,due,nominal [L/min],reference [L/min],as left [L/min]\n"
      "C1,V1,2026-01-05,2026-09-29,2,2,2\nC2,V2,2026-01-05,2026-12-05,2,2,2\n";
  EXPECT_EQ(unfit(text), "V1: due on 2026-09-29, before its kit is to be back; out with kit K-1\n");
  text.issues = with("K-1,V1,,2026-09-20,,,,,,\nK-1,,hose,2026-09-20,,2026-09-30,,,,\n").issues;
  EXPECT_EQ(unfit(text), "V1: due on 2026-09-29, before its kit is to be back; out with kit K-1\n")
      << "another row says when";
}

TEST(UnfitToGo, IsWhatIsNotChargedAsLongAsItIsInAKit) {
  EXPECT_EQ(unfit(with("K-1,P1,,,,,no,,,\nK-2,P2,,2026-09-20,,,no,2026-09-22,good,\n")),
            "P1: not charged; being put into kit K-1\n");
}

TEST(UnfitToGo, IsWhatCameBackDamagedUntilItIsServiced) {
  BookText text = with("K-1,P1,,2026-09-20,,,,2026-09-22,damaged,\n");
  EXPECT_EQ(unfit(text), "P1: came back damaged on 2026-09-22; in the store\n");
  EXPECT_EQ(unfit(with("K-1,P1,,2026-09-20,,,,,damaged,\n")), "P1: came back damaged; out with kit K-1\n");
  EXPECT_EQ(unfit(with("K-1,P1,,,,,,,damaged,\n")), "P1: came back damaged; being put into kit K-1\n");
  text.service = "serviced,instrument,what\n2026-09-23T10:00,P1,new door\n";
  EXPECT_EQ(unfit(text), "");
}

TEST(UnfitToGo, IsWhatIsOutOfServiceAndInAKit) {
  BookText text = with("K-1,P1,,2026-09-20,,,,,,\n");
  text.instruments =
      "instrument,kind,principle,out of service\nP1,pump,,2026-09-10\nP2,pump,,2026-09-10\n"
      "V1,calibrator,volumetric,\nV2,calibrator,volumetric,\n";
  EXPECT_EQ(unfit(text), "P1: out of service since 2026-09-10; out with kit K-1\n");
}

TEST(UnfitToGo, IsAPumpBeyondItsTolerance) {
  BookText text = with("K-1,P2,,,,,,,,\n");
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n"
      "2026-09-21T16:10,post,S1,V1,1.800\n";
  const ReviewedBook book(text, drift_within("5 %"));
  ASSERT_EQ(book.review().kits.unfit.size(), 1U);
  EXPECT_EQ(book.review().kits.why_unfit(0),
            "found wrong: drift per use -10.0 % on 2026-09-21; the limit of own/drift is -5 %");
  EXPECT_EQ(book.review().kits.why_unfit(1), "");
}

TEST(UnfitToGo, IsACalibratorFoundWrongUnlessItWasPutRight) {
  BookText text = with("K-1,P2,,,,,,,,\n");
  const auto certificate = [](const char* as_left) {
    return std::string(
               "certificate,instrument,calibrated,nominal [L/min],reference [L/min],as found [L/min],as left "
               "[L/min],tolerance [%]\n"
               "C0,V1,2026-01-05,2,2,2,2,2\nC1,V1,2026-09-20,2,2,2.1,") +
           as_left + ",2\nC2,V2,2026-01-05,2,2,2,2,2\n";
  };
  text.certificates = certificate("2.001");
  EXPECT_EQ(unfit(text), "");
  text.certificates = certificate("2.09");
  EXPECT_NE(unfit(text).find("V1: found wrong"), std::string::npos) << unfit(text);
}

}  // namespace
}  // namespace driftwarden::kits_out_test
