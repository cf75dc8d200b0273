// SPDX-License-Identifier: MIT
#include "history/lookback.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "history/lookback_book.hpp"

namespace driftwarden::lookback_test {
namespace {

constexpr double rounding = 1e-12;
constexpr Day no_end = std::numeric_limits<Day>::max();

using Texts = std::vector<std::string>;

struct LookedBack {
  explicit LookedBack(const BookText& text = lookback_text(), Day as_of = no_end)
      : judged(text, drift_within_5_percent()),
        lookback(look_back(judged.screening(),
                           *window_of(judged.screening(), certificate_of(judged.book(), "V1/found")), as_of)) {}

  std::vector<std::string> names() const {
    std::vector<std::string> all;
    for (const LookedBackSample& each : lookback.samples) all.emplace_back(judged.book().samples.name[each.sample]);
    return all;
  }
  const LookedBackSample& sample(std::string_view name) const {
    for (const LookedBackSample& each : lookback.samples) {
      if (judged.book().samples.name[each.sample] == name) return each;
    }
    throw std::runtime_error("not looked back on: " + std::string(name));
  }

  JudgedBook judged;
  Lookback lookback;
};

TEST(Lookback, IsOnEverySampleThatLeanedAndNoOther) {
  EXPECT_EQ(LookedBack().names(), (std::vector<std::string>{"S1", "S2", "S3", "S4"}));
}

// 2.2 L/min shown with 10 % too much are 2.0; with 5 %, on the fifth of ten days, 2.2/1.05.
TEST(Lookback, OneCalibratorBeforeAndAfterLeavesTheDriftAndMovesTheVolume) {
  const LookedBack looked;
  const LookedBackSample& s1 = looked.sample("S1");
  EXPECT_EQ(s1.bearing, Bearing::on_the_volume);
  EXPECT_NEAR(s1.before.volume_l, 2.2 * 480, 1e-9);
  EXPECT_NEAR(s1.sudden.volume_l, 2.0 * 480, 1e-9);
  EXPECT_NEAR(s1.linear->volume_l, 2.2 / 1.05 * 480, 1e-9);
  for (const double drift : {s1.before.drift, s1.sudden.drift, s1.linear->drift}) EXPECT_NEAR(drift, 0, rounding);
  EXPECT_FALSE(s1.verdict_changes());
}

TEST(Lookback, FollowsTheInstrumentThroughACalibratorSetByIt) {
  const LookedBack looked;
  const LookedBackSample& s2 = looked.sample("S2");
  ASSERT_EQ(s2.sets.size(), 2U);
  EXPECT_EQ(looked.judged.book().instruments[s2.sets[0].calibrator].name, "V2");
  EXPECT_NEAR(s2.sudden.flow_l_min, 2.0 / 1.10, rounding);
  EXPECT_NEAR(s2.linear->flow_l_min, 2.0 / 1.05, rounding);
}

// Set with V1, read afterwards with V3: what looked like no drift was +10 % (2.0 to 2.2), and on the sixth day 6 %.
TEST(Lookback, OneSetAloneMovesDriftAndVerdict) {
  const LookedBack looked;
  const LookedBackSample& s3 = looked.sample("S3");
  EXPECT_EQ(s3.bearing, Bearing::on_drift_too);
  EXPECT_NEAR(s3.before.drift, 0, rounding);
  EXPECT_NEAR(s3.sudden.drift, 0.10, rounding);
  EXPECT_NEAR(s3.linear->drift, 0.06, rounding);
  EXPECT_EQ(s3.before.verdict, Verdict::valid);
  EXPECT_EQ(s3.sudden.verdict, Verdict::void_);
  EXPECT_EQ(s3.linear->verdict, Verdict::void_);
  EXPECT_TRUE(s3.verdict_changes());
  ASSERT_EQ(s3.sudden.findings.size(), 1U);
  EXPECT_EQ(s3.sudden.findings[0].rule, "own/drift");
  EXPECT_NEAR(s3.sudden.drift_limit, 0.05, rounding);
}

TEST(Lookback, AFieldSetMovesNeitherDriftNorVolume) {
  const LookedBack looked;
  const LookedBackSample& s4 = looked.sample("S4");
  EXPECT_EQ(s4.bearing, Bearing::on_checks_only);
  EXPECT_EQ(s4.before.volume_l, s4.sudden.volume_l);
}

TEST(Lookback, TellsWhatChangesOfASample) {
  const LookedBack looked;
  EXPECT_EQ(looked.sample("S1").change(), Change::figures) << "the drift stands, the volume does not";
  EXPECT_EQ(looked.sample("S3").change(), Change::verdict);
  EXPECT_EQ(looked.sample("S4").change(), Change::nothing) << "its field set alone leans on it";
}

TEST(Lookback, TellsAChangedFindingWhereTheFiguresStand) {
  LookedBackSample looked;
  looked.before.findings = {{"own/a", Outcome::note, "a"}};
  looked.sudden = looked.before;
  EXPECT_EQ(looked.change(), Change::nothing) << "what is missing on both sides is the same";
  looked.sudden.findings = {{"own/b", Outcome::note, "b"}};
  EXPECT_EQ(looked.change(), Change::figures);
  looked.sudden = looked.before;
  looked.linear = looked.before;
  looked.linear->volume_l = 900;
  EXPECT_EQ(looked.change(), Change::figures) << "a figure that one has and the other has not";
}

// There is no drift that could move, whatever its one set says.
TEST(Lookback, FilesASampleWithoutASetAsIncompleteAndOpenBefore) {
  BookText text = lookback_text();
  const std::size_t post = text.readings.find("2026-03-07T16:10,post,S3");
  text.readings.erase(post, text.readings.find('\n', post) + 1 - post);
  const LookedBack looked(text);
  const LookedBackSample& s3 = looked.sample("S3");
  EXPECT_EQ(s3.before.verdict, Verdict::undecided);
  EXPECT_EQ(s3.bearing, Bearing::incomplete);
  EXPECT_EQ(s3.change(), Change::open_before);
}

TEST(Lookback, LeavesOutVoidReadings) {
  BookText text = lookback_text();
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],void,note\n"
      "2026-03-06T07:30,pre,S1,V1,2.2,yes,hose slipped\n2026-03-06T16:10,post,S1,V3,2.2,,\n"
      "2026-03-07T07:30,pre,S3,V1,2.2,,\n2026-03-07T07:31,pre,S3,V1,2.2,yes,hose slipped\n";
  EXPECT_EQ(LookedBack(text).names(), std::vector<std::string>{"S3"});
}

TEST(Lookback, SamplesOfAPumpLeanOnThePumpsReadings) {
  BookText text = lookback_text();
  text.samples += "S7,P6,2026-03-09T08:00,2026-03-09T16:00\n";
  text.readings =
      "taken,stage,pump,calibrator,reading [L/min]\n"
      "2026-03-09T07:30,pre,P6,V1,2.2\n2026-03-09T16:10,post,P6,V1,2.2\n";
  EXPECT_EQ(LookedBack(text).names(), std::vector<std::string>{"S7"});
}

TEST(Lookback, OfADayLeavesOutWhatCameLater) {
  EXPECT_EQ(LookedBack(lookback_text(), 20513 + 10).names(), (std::vector<std::string>{"S1", "S3", "S4"}));
}

TEST(Lookback, OfAnOpenWindowHasNoLinearGrowth) {
  BookText text = lookback_text();
  const std::size_t good = text.certificates.find("V1/good");
  text.certificates.erase(good, text.certificates.find('\n', good) + 1 - good);
  const LookedBack looked(text);
  EXPECT_EQ(looked.names(), (std::vector<std::string>{"S1", "S2", "S3", "S4"}));
  EXPECT_NEAR(looked.sample("S1").sudden.flow_l_min, 2.0, rounding);
  EXPECT_FALSE(looked.sample("S1").linear);
}

TEST(Lookback, OfSampleWithAFaultIsUndecidedUnderEverySupposition) {
  BookText text = lookback_text();
  text.readings.replace(text.readings.find("2026-03-06T16:10,post,S1,V1,2.2"), 31, "2026-03-06T16:10,post,S1,V1,2.x");
  const LookedBack looked(text);
  EXPECT_EQ(looked.sample("S1").before.verdict, Verdict::undecided);
  EXPECT_EQ(looked.sample("S1").sudden.verdict, Verdict::undecided);
  EXPECT_FALSE(looked.sample("S1").verdict_changes());
  EXPECT_EQ(looked.sample("S1").change(), Change::open_before);
}

TEST(Lookback, KnowsWhoHadTheCalibratorInTheWindowAndForEachSample) {
  BookText text = lookback_text();
  text.issues =
      "kit,instrument,out,to,back\nK-0,V1,2026-02-01,east crew,2026-02-20\nK-1,V1,2026-03-05,north crew,2026-03-06\n"
      "K-2,V1,2026-03-07,south crew,2026-03-12\nK-3,V1,2026-03-11,west crew,\nK-1,V2,2026-03-19,north crew,\n";
  const LookedBack looked(text);
  EXPECT_EQ(looked.lookback.holders, (Texts{"north crew (kit K-1), from 2026-03-05 to 2026-03-06",
                                            "south crew (kit K-2), from 2026-03-07 to 2026-03-12"}));
  EXPECT_EQ(looked.sample("S1").had_by, Texts{"north crew (kit K-1)"});
  EXPECT_EQ(looked.sample("S2").had_by, Texts{"north crew (kit K-1)"}) << "V2, through which it leans";
  EXPECT_EQ(looked.sample("S3").had_by, Texts{"south crew (kit K-2)"});
  EXPECT_EQ(LookedBack().sample("S1").had_by, Texts());
}

TEST(Lookback, NamesAHolderWhoseNameIsInAnothersToo) {
  BookText text = lookback_text();
  text.readings.replace(text.readings.find("post,S3,V3"), 10, "post,S3,V2");
  text.issues = "kit,instrument,out,to\nK-1,V1,2026-03-01,north crew\nK-1,V2,2026-03-01,crew\n";
  EXPECT_EQ(LookedBack(text).sample("S3").had_by, (Texts{"north crew (kit K-1)", "crew (kit K-1)"}));
}

TEST(Lookback, SaysWhereTheCalibratorIsMissingSinceAnIssue) {
  BookText text = lookback_text();
  text.issues = "kit,instrument,out,to,missing\nK-1,V1,2026-03-05,north crew,yes\n";
  EXPECT_EQ(LookedBack(text).lookback.holders, Texts{"north crew (kit K-1), from 2026-03-05; missing since"});
}

}  // namespace
}  // namespace driftwarden::lookback_test
