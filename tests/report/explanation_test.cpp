// SPDX-License-Identifier: MIT
#include "report/explanation.hpp"

#include <gtest/gtest.h>

#include <iterator>
#include <sstream>

#include "support/book_text.hpp"

namespace driftwarden::explanation_test {
namespace {

std::string explained(const BookText& text, const RulesText& rules = {}, bool has_colour = false) {
  JudgedBook book(text, rules);
  return explanation_of(book.screening(), book.result("S1"), Paint(has_colour));
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

#define EXPECT_HAS(text, part) EXPECT_TRUE(has(text, part)) << "no '" << (part) << "' in\n" << (text)

RuleText drift_within(const std::string& limit) { return {Subject::sample, "drift", "within", {limit}}; }

BookText with_conditions() {
  BookText text;
  text.samples =
      "sample,batch,pump,sampler,method,analysis,started,stopped,paused [min],temperature [°C],pressure [kPa],note\n"
      "S1,B-7,P1,cowl,M-12,fume,2026-09-21T08:00,2026-09-21T16:00,30,10,84.5,near the face\n";
  return text;
}

TEST(Explanation, SaysWhoHadThePump) {
  BookText text;
  text.issues = "kit,instrument,out,to,back\nK-1,P1,2026-09-20,north crew,2026-09-22\nK-1,P1,2026-09-25,east crew,\n";
  EXPECT_HAS(explained(text), "  P1 was out with north crew (kit K-1)\n  Book: Quarry\n");
}

TEST(Explanation, BeginsWithTheSampleItsVerdictAndItsLine) {
  const std::string text = explained(with_conditions(), {{drift_within("2 %")}, {sampler("cowl", 2.0)}});
  EXPECT_TRUE(text.starts_with(
      "Sample S1: void   [samples.csv:2]\n"
      "  sample, pump P1, batch B-7, sampler cowl, method M-12, analysis fume, nominal flow 2.00000 L/min\n"
      "  Note: near the face\n"
      "  Book: Quarry\n"))
      << text;
}

// 450 x 1.975 = 888.75 L; x (84.5 / 101.325) x (298.15 / 283.15) = 780.44 L, by a pocket calculator.
TEST(Explanation, ShowsEveryStepWithItsFormulaAndNumbers) {
  const std::string text = explained(with_conditions());
  EXPECT_HAS(text, "\nDrift\n  drift = (post - pre) / pre\n        = (1.95000 - 2.00000) / 2.00000 = -2.500 %\n");
  EXPECT_HAS(text, "\nMinutes\n  started 2026-09-21T08:00+00:00, stopped 2026-09-21T16:00+00:00   [samples.csv:2]\n");
  EXPECT_HAS(text, "  minutes = 480 on the absolute time line - 30 paused = 450\n");
  EXPECT_HAS(text, "  Q = (pre + post) / 2 = (2.00000 + 1.95000) / 2 = 1.97500 L/min\n");
  EXPECT_HAS(text, "  V = Q x minutes = 1.97500 x 450 = 888.75 L\n");
  EXPECT_HAS(text, "\nVolume at reference conditions, 25.00 °C and 101.325 kPa\n");
  EXPECT_HAS(text, "  V_ref = V x (P / P_ref) x (T_ref / T), temperatures in kelvin\n");
  EXPECT_HAS(text, "= 888.75 x (84.500 / 101.325) x (298.15 / 283.15) = 780.44 L\n");
  EXPECT_HAS(text, "  T = 10.00 °C from the sample [samples.csv:2]; P = 84.500 kPa from the sample [samples.csv:2]\n");
  EXPECT_HAS(text, "  Read 30 min before the sample started.\n");
  EXPECT_HAS(text, "  Read 10 min after the sample stopped.\n");
}

TEST(Explanation, ShowsEverySetAndWhichIsNotUsed) {
  BookText text;
  text.readings += "2026-09-21T05:00,pre,S1,V1,9.0\n2026-09-21T12:00,field,S1,V1,1.98\n";
  const std::string out = explained(text);
  EXPECT_HAS(out, "\nFlow, pre set (not used)\n");
  EXPECT_HAS(out, "\nFlow, pre set\n");
  EXPECT_HAS(out, "\nFlow, field set\n");
  EXPECT_HAS(out, "\nFlow, post set\n");
  EXPECT_HAS(out,
             "\n  - Another pre set of 1 reading is not used; its mean lies 350.0 % above that of the one that "
             "is\n");
}

TEST(Explanation, ShowsThePracticeThatIsFollowedAndWhoChoseIt) {
  const auto flow = [](const std::string& value) {
    BookText text;
    text.samples = "sample,pump,started,stopped,nominal [L/min]\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,1.7\n";
    return explained(text, {{}, {}, {practice("flow_for_volume", value)}});
  };
  EXPECT_HAS(flow("lower"), "  Q = the lower of 2.00000 and 1.95000 = 1.95000 L/min\n");
  EXPECT_HAS(flow("pre"), "  Q = pre = 2.00000 L/min\n");
  EXPECT_HAS(flow("nominal"), "  Q = nominal = 1.70000 L/min\n");
  EXPECT_HAS(flow("lower"),
             "  Practice flow_for_volume = lower, by the book: The client asked for it. [book.toml:3:1]\n");
  EXPECT_FALSE(has(explained(BookText()), "Practice")) << "nobody chose";
}

TEST(Explanation, ShowsTheBaseOfTheDrift) {
  const auto drift = [](const std::string& base) {
    return explained(BookText(), {{}, {}, {practice("drift_base", base)}});
  };
  EXPECT_HAS(drift("post"), "drift = (post - pre) / post\n        = (1.95000 - 2.00000) / 1.95000 = -2.564 %\n");
  EXPECT_HAS(drift("mean"),
             "drift = (post - pre) / mean of pre and post\n        = (1.95000 - 2.00000) / 1.97500 = -2.532 %\n");
  EXPECT_HAS(drift("nominal"), "drift = (post - pre) / nominal\n  can't be worked out: a flow is missing\n");
}

TEST(Explanation, ShowsThePracticeOfACorrection) {
  BookText text;
  text.instruments =
      "instrument,kind,principle,scale temperature [°C],scale pressure "
      "[kPa]\nP1,pump,,,\nV1,calibrator,rotameter,20,101.325\n";
  text.certificates.clear();
  EXPECT_HAS(explained(text, {{}, {}, {practice("rotameter_correction", "never")}}),
             "  Practice rotameter_correction = never, by the book: The client asked for it. [book.toml:3:1]\n");
}

TEST(Explanation, SaysWhatCannotBeWorkedOutAndWhy) {
  BookText text;
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T07:30,pre,S1,V1,2.000\n";
  const std::string no_post = explained(text);
  EXPECT_HAS(no_post, "  can't be worked out: there is no post set\n");
  EXPECT_HAS(no_post, "\nVolume, actual\n  can't be worked out: a flow or the minutes are missing\n");
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n2026-09-21T16:30,post,S1,V1,2.000\n";
  EXPECT_HAS(explained(text), "  can't be worked out: there is no pre set\n");
  EXPECT_HAS(explained(BookText()), "  can't be worked out: a volume, a temperature or a pressure is missing\n");
}

TEST(Explanation, WorksNothingOutFromARecordThatCantBeUnderstood) {
  BookText text;
  text.samples = "sample,pump,started,stopped,paused [min]\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,500\n";
  const std::string why = "  not worked out: a record that the sample leans on can't be understood, see below\n";
  for (const char* step : {"\nVolume, actual\n", "\nFlow for the volume\n"}) EXPECT_HAS(explained(text), step + why);
  EXPECT_HAS(explained(text), "[samples.csv:2]\n" + why);  // the minutes
  EXPECT_HAS(explained(text), "[sample/paused-too-long]");
}

TEST(Explanation, SaysThatTheClocksWereChanged) {
  BookText text;
  text.settings = "title = \"Quarry\"\ntime_zone = \"MST7MDT,M3.2.0,M11.1.0\"\n";
  text.samples = "sample,pump,started,stopped\nS1,P1,2026-10-31T22:00,2026-11-01T06:00\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const std::string out = explained(text);
  EXPECT_HAS(out, "started 2026-10-31T22:00-06:00, stopped 2026-11-01T06:00-07:00");
  EXPECT_HAS(out, "  minutes = 540 on the absolute time line\n");
  EXPECT_HAS(out, "  The clocks were changed during the sample; the minutes are those that passed.\n");
}

TEST(Explanation, SaysWhereConditionsThatAreNotTheSamplesComeFrom) {
  BookText text;
  text.settings += "[site]\naltitude = \"1500 m\"\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],temperature "
      "[°C]\n2026-09-21T07:30,pre,S1,V1,2,18\n2026-09-21T16:10,post,S1,V1,2,22\n";
  EXPECT_HAS(explained(text),
             "T = 20.00 °C from its sets (mean); P = 84.556 kPa from the site's altitude [book.toml:4:12]\n");
}

TEST(Explanation, ShowsEveryRuleMetOrNotWithItsSource) {
  RuleText skipped{Subject::sample, "warm-up", "at_least", {"15 min"}};
  skipped.absent = Absent::skip;
  const std::string out = explained(BookText(), {{drift_within("2 %"),
                                                  {Subject::sample, "flow", "at_least", {"1.9 L/min"}},
                                                  {Subject::sample, "calibrator.same", "is", {"yes"}},
                                                  skipped}});
  EXPECT_HAS(
      out,
      "  [void] The flow fell 2.5 %, from 2.000 L/min before sampling to 1.950 L/min after; the limit is\n  2 %.\n "
      "     own/drift: drift -2.5 %; "
      "limit: within 2 %; margin -0.50 %\n      Why: A reason.\n      Source: A source (house) "
      "[own.toml:1:1]\n");
  EXPECT_HAS(out, "      own/flow: flow 1.975 L/min; limit: at least 1.9 L/min; margin 0.08 L/min\n");
  EXPECT_HAS(
      out,
      "  [met] V1 read the flow both before and after.\n      own/calibrator.same: calibrator.same; limit: is yes\n");
  EXPECT_HAS(out, "      own/warm-up: warm-up; limit: at least 15 min\n");
}

TEST(Explanation, NamesTheSetOfARuleOfSets) {
  const std::string out = explained(BookText(), {{{Subject::set, "flow", "at_least", {"1.9 L/min"}}}});
  EXPECT_HAS(out, "      own/flow: flow of the pre set 2.000 L/min; limit: at least 1.9 L/min");
  EXPECT_HAS(out, "      own/flow: flow of the post set 1.950 L/min; limit: at least 1.9 L/min");
}

TEST(Explanation, ShowsWhatTheBookOverrides) {
  const Book book = book_of(BookText());
  RuleSet rules = RulesText{{drift_within("10 %")}}.rule_set();
  rules.rules[0].overridden = {"within 5 %", "void", "The client's.", {"book.toml", 7, 1}};
  const Screening screening(book, rules);
  SampleJudge judge(screening, true);
  EXPECT_HAS(explanation_of(screening, judge.judge(0), Paint(false)),
             "      Changed by this book: it was 'within 5 %', void. Reason: The client's. [book.toml:7:1]\n");
}

TEST(Explanation, SaysThatNoRuleApplies) { EXPECT_HAS(explained(BookText()), "  No rule applies to it.\n"); }

TEST(Explanation, OfFaultyRecordsNamesTheFaultAndHoldsNoRule) {
  BookText text;
  text.readings += "2026-09-21T16:11,post,S1,V1,1.9S\n";
  const std::string out = explained(text, {{drift_within("2 %")}});
  EXPECT_HAS(out,
             "  No rule is held to this sample, for a record it leans on can't be understood:\n    readings.csv:4:29: "
             "error: '1.9S' is not a number");
  EXPECT_FALSE(has(out, "own/drift")) << out;
  EXPECT_HAS(out, "Sample S1: undecided");
}

TEST(Explanation, ShowsEveryDecisionAboutTheSample) {
  BookText text;
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n"
      "2026-09-22T10:00,site hygienist,S1,own/drift,uphold,first look\n"
      "2026-09-23T10:00,site hygienist,S9,own/drift,uphold,another sample\n";
  const std::string out = explained(text);
  EXPECT_HAS(out,
             "\nDecisions\n  2026-09-22T10:00+00:00, site hygienist: uphold own/drift. Reason: first look "
             "[decisions.csv:2]\n");
  EXPECT_FALSE(has(out, "another sample")) << out;
}

TEST(Explanation, ShowsTheRulingBesideItsFindingAndHowTheSampleStands) {
  BookText text;
  text.decisions =
      "decided,by,subject,rule,ruling,reason\n2026-09-22T10:00,site hygienist,S1,own/drift,overrule,looked at\n";
  const std::string out = explained(text, {{drift_within("2 %")}});
  EXPECT_HAS(out, "Sample S1: void, but counts as valid by decision   [samples.csv:2]\n");
  EXPECT_HAS(out, "      Decided: overruled by site hygienist, 2026-09-22T10:00+00:00: looked at [decisions.csv:2]\n");
  EXPECT_HAS(out, "\nVerdict\n  void: the worst of its findings");
  EXPECT_HAS(out, "  By decision it stands as valid: ");
}

TEST(Explanation, LetsNoTextOfTheBookActOnTheTerminal) {
  BookText text;
  text.samples = "sample,pump,started,stopped,note\nS1,P1,2026-09-21T08:00,2026-09-21T16:00,ring \x07 \x1b[2J\n";
  const std::string out = explained(text);
  EXPECT_HAS(out, "  Note: ring \\x07 \\x1b[2J\n");
  EXPECT_FALSE(has(out, "\x1b")) << out;
}

TEST(Explanation, OfABlankShowsNoFlow) {
  BookText text;
  text.samples = "sample,kind,pump,started,stopped\nS1,blank,,,\n";
  text.readings = "taken,stage,sample,calibrator,reading [L/min]\n";
  const std::string out = explained(text);
  EXPECT_TRUE(out.starts_with("Sample S1: valid   [samples.csv:2]\n  blank\n")) << out;
  EXPECT_FALSE(has(out, "Drift")) << out;
}

TEST(Explanation, HasTheSameTextWithAndWithoutColour) {
  std::string coloured = explained(with_conditions(), {{drift_within("2 %")}}, true);
  EXPECT_HAS(coloured, "\x1b[");
  for (std::size_t at; (at = coloured.find('\x1b')) != std::string::npos;)
    coloured.erase(at, coloured.find('m', at) - at + 1);
  EXPECT_EQ(coloured, explained(with_conditions(), {{drift_within("2 %")}}));
}

// (1.975 / 2)^-0.5 - 1 = 0.631 %, by a pocket calculator.
TEST(Explanation, ShowsTheShiftOfTheCutWhereverTheSamplerHasAnExponent) {
  const std::string text = explained(with_conditions(), {{}, {sampler("cowl", 2.0, 0.5)}});
  EXPECT_HAS(text,
             "\nCut size\n  cut.shift = (mean flow / nominal)^-n - 1, at the mean flow as measured\n"
             "            = (1.97500 / 2.00000)^-0.5 - 1 = 0.63 %\n  n = 0.5: A source\n");
  EXPECT_FALSE(has(explained(with_conditions(), {{}, {sampler("cowl", 2.0)}}), "Cut size"));
}

TEST(Explanation, ShowsWhatTheFlowDidToTheMassWhereTheSamplersCurveIsDescribed) {
  const std::string text = explained(cyclone_book("1.9"), {{}, {cyclone_sampler()}});
  EXPECT_HAS(text, "\nCut size and sampled mass, by a model of the sampler\n");
  EXPECT_HAS(text, "mass.shift.actual");
  EXPECT_FALSE(has(text, "\nCut size\n"));
  EXPECT_FALSE(has(explained(with_conditions(), {{}, {sampler("cowl", 2.0, 0.5)}}), "sampled mass"));
}

TEST(Explanation, SetsWhatWasMeasuredBesideAConventionalVolume) {
  const std::string text = explained(nominal_book(), {{}, {}, {practice("flow_for_volume", "nominal")}});
  EXPECT_HAS(text, "  V = Q x minutes = 1.70000 x 480 = 816.00 L\n");
  EXPECT_HAS(text,
             "\nVolume as measured, beside the conventional one above\n"
             "  V = (pre + post) / 2 x minutes = 1.97500 x 480 = 948.00 L\n");
  EXPECT_FALSE(has(explained(nominal_book()), "conventional"));
}

TEST(Explanation, ShowsTheLineThroughTheFieldSets) {
  const std::string text = explained(sagging_book(), {{}, {}, {practice("field_sets", "line")}});
  EXPECT_HAS(text,
             "  Q = mean along the line through pre, field and post sets: each flow x its share of the time\n"
             "    after 0 min: 2.00000 x 0.2500   (pre)\n"
             "    after 240 min: 1.80000 x 0.5000   (field)\n"
             "    after 480 min: 2.00000 x 0.2500   (post)\n"
             "    = 1.90000 L/min\n");
  EXPECT_HAS(text, "  Practice field_sets = line, by the book: The client asked for it. [book.toml:3:1]\n");
}

// The longest line, in characters, of those that hold a blank to break at.
std::size_t longest_line(const std::string& text) {
  std::size_t longest = 0;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    const bool has_words = line.find(' ', line.find_first_not_of(' ')) != std::string::npos;
    if (has_words) longest = std::max(longest, characters_in(line));
  }
  return longest;
}

TEST(Explanation, KeepsWithinTheColumnsOfATerminal) {
  JudgedBook book(with_conditions());
  for (const std::size_t columns : {40U, 60U, 80U, 100U, 109U, 140U}) {
    const std::string text = explanation_of(book.screening(), book.result("S1"), Paint(true), columns);
    EXPECT_LE(longest_line(text), columns) << text;
  }
  EXPECT_GT(longest_line(explained(with_conditions())), 100U);  // a formula and a row of the table stand in one line
}

TEST(Explanation, SaysTheSameOnANarrowTerminal) {
  const auto words_of = [](const std::string& text) {
    std::istringstream words(text);
    return std::vector<std::string>(std::istream_iterator<std::string>(words), {});
  };
  JudgedBook book(with_conditions());
  EXPECT_EQ(words_of(explanation_of(book.screening(), book.result("S1"), Paint(false), 50)),
            words_of(explained(with_conditions())));
}

}  // namespace
}  // namespace driftwarden::explanation_test
