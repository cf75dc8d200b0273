// SPDX-License-Identifier: MIT
#include "verdict/rules_ahead.hpp"

#include <gtest/gtest.h>

#include "book/stamp_text.hpp"
#include "support/book_text.hpp"

namespace driftwarden::rules_ahead_test {
namespace {

// input: a plan and rules, where nothing else is said.

BookText planned_book() {
  BookText text;
  text.samples =
      "sample,batch,pump,sampler,medium,started,stopped\nS1,B1,P1,cowl,C-1,2026-09-21T08:00,2026-09-21T16:00\n";
  text.plan =
      "sample,batch,kind,pump,sampler,nominal [L/min],calibrator,day\n"
      "S1,B1,,P1,cowl,,,\n"
      "S2,B1,,P2,cowl,,V2,2026-09-22\n"
      "S3,B1,,P2,,1.7,,\n"
      "K1,B1,blank,,,,,\n"
      "S4,B2,,P2,cowl,,,\n";
  return text;
}

const RulesText rules{.rules = {{Subject::sample, "pre.deviation", "within", {"5 %"}},
                                {Subject::sample,
                                 "pre.flow",
                                 "at_least",
                                 {"1.95 L/min"},
                                 Otherwise::qualify,
                                 Absent::undecided,
                                 Base::by_practice,
                                 {{"sampler", {"cowl"}, {}, {}}}},
                                {Subject::set,
                                 "flow",
                                 "at_most",
                                 {"2.2 L/min"},
                                 Otherwise::void_,
                                 Absent::undecided,
                                 Base::by_practice,
                                 {{"stage", {"post"}, {}, {}}}},
                                {Subject::sample, "warm-up", "at_least", {"15 min"}},
                                {Subject::sample, "pre.count", "at_least", {"3"}},
                                {Subject::sample, "post.count", "more_than", {"3"}},
                                {Subject::sample, "pre.age", "at_most", {"24 h"}},
                                {Subject::sample, "post.age", "at_most", {"2 h"}},
                                {Subject::sample, "post.flow", "at_least", {"1.9 L/min"}}},
                      .samplers = {sampler("cowl", 2.0)}};

TEST(RulesAhead, FindsTheSamplesOfABatchPlannedOrRecordedEachOnce) {
  JudgedBook book(planned_book(), rules);
  const std::vector<SampleAhead> samples = samples_ahead(book.screening(), "B1").samples;
  ASSERT_EQ(samples.size(), 4U);
  EXPECT_EQ(samples[0].name, "S1");
  EXPECT_TRUE(samples[0].is_recorded);
  EXPECT_EQ(samples[0].medium, "C-1");
  EXPECT_EQ(samples[0].nominal_l_min, 2.0);
  EXPECT_EQ(book.book().instruments[samples[0].calibrator].name, "V1");
  EXPECT_EQ(date_text(samples[0].day), "2026-09-21");
  EXPECT_EQ(samples[1].name, "S2");
  EXPECT_FALSE(samples[1].is_recorded);
  EXPECT_EQ(samples[1].nominal_l_min, 2.0);
  EXPECT_EQ(samples[2].nominal_l_min, 1.7);
  EXPECT_EQ(samples[3].kind, SampleKind::blank);
  EXPECT_TRUE(samples_ahead(book.screening(), "B3").samples.empty());
  EXPECT_EQ(batch_names(book.book()), (std::vector<std::string>{"B1", "B2"}));
}

TEST(RulesAhead, FindsWhatIsPlannedWithPumpsAndNotRecordedYet) {
  JudgedBook book(planned_book(), rules);
  const auto names = [&](const std::vector<Row>& pumps) {
    std::string text;
    for (const SampleAhead& sample : samples_planned_with(book.screening(), pumps).samples) text += sample.name + " ";
    return text;
  };
  EXPECT_EQ(names({0}), "") << "S1 is recorded";
  EXPECT_EQ(names({0, 1}), "S2 S3 S4 ");
  EXPECT_EQ(names({}), "") << "nor what is planned without a pump";
  EXPECT_EQ(samples_planned_with(book.screening(), {1}).samples[0].nominal_l_min, 2.0) << "its sampler's";
}

TEST(RulesAhead, FindTheRulesOnVolumeMinutesAndDriftAndWhatIsToBeWrittenDownBesides) {
  RulesText more = rules;
  for (const auto& [measure, form, value] :
       std::initializer_list<std::tuple<const char*, const char*, const char*>>{{"volume", "at_least", "20 L"},
                                                                                {"minutes", "at_most", "8 h"},
                                                                                {"drift", "within", "5 %"},
                                                                                {"leak", "less_than", "80 mL/min"},
                                                                                {"interruptions", "at_most", "10"}})
    more.rules.push_back({Subject::sample, measure, form, {value}});
  JudgedBook book(planned_book(), more);
  const RulesAhead ahead = rules_ahead(book.screening(), SampleAhead{}, no_row);
  ASSERT_EQ(ahead.volume.size(), 1U);
  EXPECT_EQ(ahead.volume[0]->full_name(), "own/volume");
  ASSERT_EQ(ahead.minutes.size(), 1U);
  ASSERT_EQ(ahead.drift.size(), 1U);
  EXPECT_TRUE(ahead.asks_for_leak);
  EXPECT_TRUE(ahead.asks_for_interruptions);
  JudgedBook without(planned_book(), rules);
  const RulesAhead none = rules_ahead(without.screening(), SampleAhead{}, no_row);
  EXPECT_FALSE(none.asks_for_leak || none.asks_for_interruptions);
  EXPECT_TRUE(none.volume.empty() && none.minutes.empty() && none.drift.empty());
}

TEST(RulesAhead, LeaveOutANameThatHasGoneToASampleOfAnotherBatch) {
  BookText text = planned_book();
  text.plan = "sample,batch,pump\nS1,B2,P1\nS2,B2,P2\nS1x,B1,P1\n";
  JudgedBook book(text, rules);
  const SamplesAhead of_batch = samples_ahead(book.screening(), "B2");
  ASSERT_EQ(of_batch.samples.size(), 1U);
  ASSERT_EQ(of_batch.left_out.size(), 1U);
  EXPECT_EQ(of_batch.left_out[0]->name, "S1");
  EXPECT_EQ(samples_planned_with(book.screening(), {0}).left_out.size(), 1U);
  EXPECT_TRUE(samples_planned_with(book.screening(), {1}).left_out.empty());
  EXPECT_TRUE(samples_ahead(book.screening(), "B1").left_out.empty());
}

TEST(RulesAhead, AreThoseThatWillApply) {
  JudgedBook book(planned_book(), rules);
  const std::vector<SampleAhead> samples = samples_ahead(book.screening(), "B1").samples;
  const RulesAhead of_cowl = rules_ahead(book.screening(), samples[1], samples[1].calibrator);
  ASSERT_EQ(of_cowl.pre_flow.size(), 2U);
  EXPECT_EQ(of_cowl.pre_flow[1].rule->id, "pre.flow");
  EXPECT_EQ(of_cowl.pre_band().low_l_min, 1.95);
  EXPECT_NEAR(of_cowl.pre_band().high_l_min, 2.1, 1e-12);
  const RulesAhead of_another = rules_ahead(book.screening(), samples[2], no_row);
  ASSERT_EQ(of_another.pre_flow.size(), 1U);
  EXPECT_NEAR(of_another.pre_band().low_l_min, 1.615, 1e-12);  // derived: 1.7 * 0.95
}

// Of two rules the narrower says of each end whether it is included, and of an end they share both do.
TEST(RulesAhead, KnowOfEachEndWhetherItIsIncluded) {
  FlowBand within{1.9, 2.1};
  RulesAhead ahead;
  ahead.pre_flow = {{nullptr, within}, {nullptr, {1.95, 2.2, false, false}}};
  EXPECT_FALSE(ahead.pre_band().holds(1.95));
  EXPECT_TRUE(ahead.pre_band().holds(2.1));
  ahead.pre_flow = {{nullptr, {1.95, 2.2, false, false}}, {nullptr, within}, {nullptr, {1.8, 2.1, true, false}}};
  EXPECT_FALSE(ahead.pre_band().holds(1.95));
  EXPECT_FALSE(ahead.pre_band().holds(2.1));
}

TEST(RulesAhead, AskForReadingsWarmUpAndPromptness) {
  JudgedBook book(planned_book(), rules);
  const RulesAhead ahead = rules_ahead(book.screening(), samples_ahead(book.screening(), "B1").samples[1], no_row);
  EXPECT_EQ(ahead.pre_count, 3);
  EXPECT_EQ(ahead.post_count, 4);
  EXPECT_EQ(ahead.field_count, 0);
  EXPECT_EQ(ahead.warm_up_min, 15);
  EXPECT_EQ(ahead.pre_age_max_min, 1440);
  EXPECT_EQ(ahead.post_age_max_min, 120);
}

TEST(RulesAhead, AskNothingOfABlank) {
  JudgedBook book(planned_book(), rules);
  const RulesAhead ahead = rules_ahead(book.screening(), samples_ahead(book.screening(), "B1").samples[3], no_row);
  EXPECT_TRUE(ahead.pre_flow.empty());
  EXPECT_EQ(ahead.pre_count, 0);
}

// The temperature of sampling is not known beforehand: a rule that asks for a range of it may apply.
TEST(RulesAhead, CountWhatNobodyCanSayYetAsApplying) {
  RulesText cold = rules;
  Condition in_the_cold{"temperature", {}, {}, 273.15};
  cold.rules = {{Subject::sample,
                 "pre.deviation",
                 "within",
                 {"5 %"},
                 Otherwise::void_,
                 Absent::undecided,
                 Base::by_practice,
                 {in_the_cold}}};
  JudgedBook book(planned_book(), cold);
  EXPECT_EQ(rules_ahead(book.screening(), samples_ahead(book.screening(), "B1").samples[1], no_row).pre_flow.size(),
            1U);
}

}  // namespace
}  // namespace driftwarden::rules_ahead_test
