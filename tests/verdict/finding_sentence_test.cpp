// SPDX-License-Identifier: MIT
#include "verdict/finding_sentence.hpp"

#include <gtest/gtest.h>

#include <cctype>
#include <deque>
#include <regex>
#include <vector>

#include "rule/english.hpp"
#include "support/book_text.hpp"
#include "verdict/message.hpp"

namespace driftwarden::finding_sentence_test {
namespace {

// input: figures to be told.

RuleText of_sample(std::string_view measure, std::string_view form, const std::string& value) {
  return {Subject::sample, measure, form, {value}};
}

std::string told_of(const Rule& rule, const Judgement& judgement, double probability_beyond) {
  Finding finding;
  finding.judgement = judgement;
  finding.probability_beyond = probability_beyond;
  return sentence_of({.texts = english, .rule = rule, .finding = finding, .guard = 1.5, .names = [](std::string_view) {
                        return std::optional<std::string>("");
                      }});
}
std::string told_of(const RuleText& rule, const Judgement& judgement, double probability_beyond = missing) {
  return told_of(rule.rule(), judgement, probability_beyond);
}

TEST(Told, SaysTheFigureAndTheLimitWhetherItIsKeptOrNot) {
  const RuleText within = of_sample("drift", "within", "5 %");
  EXPECT_EQ(told_of(within, {Outcome::void_, -0.071, -0.05, -0.021}),
            "The flow fell 7.1 %, from  before sampling to  after; the limit is 5 %");
  EXPECT_EQ(told_of(within, {Outcome::void_, 0.071, 0.05, -0.021}),
            "The flow rose 7.1 %, from  before sampling to  after; the limit is 5 %");
  EXPECT_EQ(told_of(within, {Outcome::met, -0.021, -0.05, 0.029}),
            "The flow fell 2.1 %, from  before sampling to  after, within the limit of 5 %");
  EXPECT_EQ(told_of(of_sample("minutes", "at_least", "3 h"), {Outcome::void_, 158, 180, -22}),
            "The sample ran for 158 min; the rule asks for at least 3 h");
  const RuleText day{Subject::sample, "minutes", "between", {"23 h", "25 h"}};
  EXPECT_EQ(told_of(day, {Outcome::void_, 1379, 1380, -1}),
            "The sample ran for 1379 min; the rule asks for 23 h to 25 h");
  EXPECT_EQ(told_of(day, {Outcome::met, 1400, 1380, 20}),
            "The sample ran for 1400 min, within the 23 h to 25 h that the rule asks for");
  EXPECT_EQ(told_of(of_sample("drift", "strictly_within", "2 %"), {Outcome::note, 0.02, 0.02, 0}),
            "The flow rose 2.0 %, from  before sampling to  after; it has to be less than 2 %");
}

TEST(Told, SaysNoneAndOneAndLessOnlyWhereTheLanguageDoes) {
  EXPECT_EQ(told_of({Subject::calibrator, "as-found.error", "at_least", {"1 %"}}, {Outcome::note, 0, 0.01, -0.01}),
            "At its last calibration  read up to 0.0 % too high as found; the rule asks for at least 1 %");
  const RuleText minutes = of_sample("minutes", "at_least", "3 h");
  EXPECT_EQ(told_of(minutes, {Outcome::note, 0, 180, -180}),
            "The sample ran for 0 min; the rule asks for at least 3 h");
  EXPECT_EQ(told_of(minutes, {Outcome::note, 1, 180, -179}),
            "The sample ran for 1 min; the rule asks for at least 3 h");
  EXPECT_EQ(told_of(minutes, {Outcome::note, -1, 180, -181}),
            "The sample ran for -1 min; the rule asks for at least 3 h");
  EXPECT_EQ(told_of(of_sample("drift", "at_most", "0 %"), {Outcome::note, 0.02, 0, -0.02}),
            "The flow rose 2.0 %, from  before sampling to  after; the limit is 0 %");
}

TEST(Told, CountsInWords) {
  const RuleText rule = of_sample("pre.count", "at_least", "3");
  EXPECT_EQ(told_of(rule, {Outcome::qualified, 2, 3, -1}),
            "2 readings were taken before sampling; the rule asks for at least 3");
  EXPECT_EQ(told_of(rule, {Outcome::qualified, 1, 3, -2}),
            "1 reading was taken before sampling; the rule asks for at least 3");
  EXPECT_EQ(told_of(rule, {Outcome::qualified, 0, 3, -3}),
            "No flow reading before sampling is on record (enter them if they were written down); the rule asks for at "
            "least 3");
}

TEST(Told, TellsReadingsThatAreStruckOutFromNone) {
  const Rule rule = of_sample("pre.count", "at_least", "3").rule();
  Finding finding;
  finding.judgement = {Outcome::qualified, 0, 3, -3};
  const auto told = [&](std::size_t struck_out) {
    return sentence_of(
        {.texts = english, .rule = rule, .finding = finding, .struck_out = struck_out, .names = [](std::string_view) {
           return std::optional<std::string>("before sampling");
         }});
  };
  EXPECT_EQ(told(1), "The one reading before sampling is struck out; the rule asks for at least 3");
  EXPECT_EQ(told(3), "All 3 readings before sampling are struck out; the rule asks for at least 3");
}

TEST(Told, LeavesOutALimitOfZeroWhereTheSentenceHasIt) {
  const RuleText due = {Subject::calibrator, "due", "at_least", {"0 d"}};
  EXPECT_EQ(told_of(due, {Outcome::qualified, -20160, 0, -20160}), "The recalibration of  was due 14 days ago");
  EXPECT_EQ(told_of(due, {Outcome::qualified, -1440, 0, -1440}), "The recalibration of  was due 1 day ago");
  EXPECT_EQ(told_of(due, {Outcome::qualified, -720, 0, -720}), "The recalibration of  was due 0.5 d ago");
  EXPECT_EQ(told_of({Subject::calibrator, "due", "at_least", {"30 d"}}, {Outcome::qualified, 20160, 43200, -23040}),
            "The recalibration of  is due in 14 days; the rule asks for at least 30 days");
}

TEST(Told, TellsTheGuardBandFromTheLimitItself) {
  const RuleText within = of_sample("drift", "within", "5 %");
  const std::string kept = "The flow rose 4.6 %, from  before sampling to  after, within the limit of 5 %, but ";
  EXPECT_EQ(
      told_of(within, {Outcome::qualified, 0.046, 0.05, 0.004}, 0.06),
      kept +
          "closer to it than the guard band of 1.50 U allows: its uncertainty leaves a chance of 6 % that the true "
          "value lies beyond the limit");
  EXPECT_EQ(told_of(within, {Outcome::qualified, 0.046, 0.05, 0.004}, missing),
            kept + "its uncertainty can't be stated, so the guard band of 1.50 U can't be kept");
  EXPECT_EQ(told_of(within, {Outcome::met, 0.046, 0.05, 0.004}, 0.06),
            kept + "its uncertainty leaves a chance of 6 % that the true value lies beyond the limit");
  EXPECT_EQ(told_of(within, {Outcome::met, 0.046, 0.05, 0.004}, 0.02) + ", but ", kept) << "too unlikely to be told";
  const std::string broken = "The flow rose 5.4 %, from  before sampling to  after; the limit is 5 %";
  EXPECT_EQ(told_of(within, {Outcome::qualified, 0.054, 0.05, -0.004}, 0.9), broken);
  EXPECT_EQ(told_of(within, {Outcome::qualified, 0.054, 0.05, missing}, 0.9), broken);
}

TEST(Told, OfAFigureOnItsLimitGoesByWhetherTheLimitIncludesIt) {
  const Judgement on{Outcome::qualified, 0.05, 0.05, 0};
  EXPECT_NE(told_of(of_sample("drift", "within", "5 %"), on, 0.5).find("within the limit of 5 %, but closer"),
            std::string::npos);
  for (const char* form : {"strictly_within", "less_than", "more_than"}) {
    EXPECT_NE(told_of(of_sample("drift", form, "5 %"), on, 0.5).find("; it has to be"), std::string::npos) << form;
  }
  const Judgement inside{Outcome::qualified, 0.04, 0.05, 0.01};
  EXPECT_TRUE(told_of(of_sample("drift", "strictly_within", "5 %"), inside, 0.5).ends_with("lies beyond the limit"));
}

TEST(Told, TakesTheRulesOwnSentenceWhereTheLimitIsNotKept) {
  Rule rule = of_sample("drift", "within", "5 %").rule();
  rule.sentence = "Pump {pump} moved by {size} ({figure}); we allow {limit}";
  EXPECT_EQ(told_of(rule, {Outcome::void_, -0.071, -0.05, -0.021}, missing),
            "Pump  moved by 7.1 % (-7.1 %); we allow 5 %");
  EXPECT_EQ(told_of(rule, {Outcome::met, -0.021, -0.05, 0.029}, missing),
            "The flow fell 2.1 %, from  before sampling to  after, within the limit of 5 %");
  rule.sentence = "{says}; we allow {limit}";
  EXPECT_EQ(told_of(rule, {Outcome::void_, -0.071, -0.05, -0.021}, missing),
            "The flow fell 7.1 %, from  before sampling to  after; we allow 5 %");
  rule.sentence = "Pump {pump} moved by {size} ({figure}); we allow {limit}";
  rule.after = "Clause 7";
  EXPECT_TRUE(told_of(rule, {Outcome::void_, -0.071, -0.05, -0.021}, missing)
                  .ends_with("we allow 5 %; that this voids is how the pack reads Clause 7"));
}

TEST(ChanceText, HasTwoDecimalsNearTheEndsOnly) {
  const auto text = [](double probability) {
    Finding finding;
    finding.probability_beyond = probability;
    return chance_text(finding);
  };
  EXPECT_EQ(text(0.005), "0.50 %");
  EXPECT_EQ(text(0.01), "1 %");
  EXPECT_EQ(text(0.015), "2 %");
  EXPECT_EQ(text(0.5), "50 %");
  EXPECT_EQ(text(0.99), "99 %");
  EXPECT_EQ(text(0.995), "99.50 %");
  EXPECT_EQ(text(missing), "not known how");
}

// A test language: English in capitals. What it does not own would be seen in small letters.
class Shouted {
 public:
  Shouted() : texts(english) {
    for (std::size_t subject = 0; subject < texts.measures.size(); ++subject) {
      for (MeasureTexts row : english.measures[subject]) {
        for (std::string_view* text : {&row.says, &row.negative, &row.none, &row.one, &row.missing}) shout(*text);
        rows_[subject].push_back(row);
      }
      texts.measures[subject] = rows_[subject];
    }
    for (LimitTexts& limit : texts.limits) shout(limit.broken), shout(limit.kept);
    for (const auto text : near_texts) shout(texts.near.*text);
    for (const auto text : lack_texts) shout(texts.lacks.*text);
    for (const auto text : single_texts) shout(texts.*text);
    for (auto* all : {&texts.bases, &texts.of_bases, &texts.beside}) {
      for (std::string_view& text : *all) shout(text);
    }
    for (auto* all : {&texts.sets, &texts.unknown_words}) {
      for (std::string_view& text : *all) shout(text);
    }
  }
  Shouted(const Shouted&) = delete;
  Shouted& operator=(const Shouted&) = delete;

  Texts texts;

 private:
  void shout(std::string_view& text) {
    std::string loud;
    bool is_placeholder = false;
    for (const char c : text) {
      is_placeholder = c == '{' || (is_placeholder && c != '}');
      loud += is_placeholder ? c : static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    }
    text = kept_.emplace_back(loud);
  }

  std::array<std::vector<MeasureTexts>, subject_count> rows_;
  std::deque<std::string> kept_;
};

// Every measure of a sample, held to something it doesn't keep.
std::vector<RuleText> rules_of_every_measure() {
  std::vector<RuleText> rules;
  for (const Subject of : {Subject::sample, Subject::set, Subject::reading}) {
    for (const Measure& measure : measures(of)) {
      const bool is_yes_no = measure.kind == MeasureKind::yes_no;
      if (measure.kind == MeasureKind::word) continue;
      for (const bool high : {false, true}) {
        const std::string amount =
            std::string(high ? "100000" : "0") + (measure.unit.empty() ? "" : " ") + std::string(measure.unit);
        RuleText rule{of,
                      measure.name,
                      is_yes_no ? "is"
                      : high    ? "more_than"
                                : "less_than",
                      {is_yes_no ? (high ? "yes" : "no") : amount}};
        rules.push_back(rule);
      }
    }
  }
  return rules;
}

TEST(Told, IsInTheLanguageThatIsHandedIn) {
  BookText text;
  text.samples = "sample,pump,started,stopped,sampler\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,X\n";
  const Book book = book_of(text);
  const RuleSet rules = RulesText{rules_of_every_measure(), {sampler("Y", 2.0)}}.rule_set();
  Screening screening(book, rules);
  const Shouted shouted;
  screening.tell_in(shouted.texts);
  SampleJudge judge(screening, true);
  const SampleResult& result = judge.judge(0);
  ASSERT_GT(result.findings.size() + result.kept.size(), 100U);
  // Units, files and names of rules are the same in every language.
  const std::regex same(R"((L/min|min|kPa|[a-z]+\.(csv|toml)[:0-9]*|own/[a-z.-]+)|\b[hd]\b)");
  for (const auto* some : {&result.findings, &result.kept}) {
    for (const Finding& finding : *some) {
      const std::string said = message_of(screening, result, finding);
      const std::string own = std::regex_replace(said, same, "");
      EXPECT_TRUE(std::ranges::none_of(own, [](char c) { return c >= 'a' && c <= 'z'; })) << said;
      EXPECT_EQ(said.find('{'), std::string::npos) << said;
    }
  }
}

}  // namespace
}  // namespace driftwarden::finding_sentence_test
