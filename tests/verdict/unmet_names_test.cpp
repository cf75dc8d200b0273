// SPDX-License-Identifier: MIT
#include "verdict/unmet_names.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::unmet_names_test {
namespace {

// input: names of an invented book, with pumps P1 and P2 and calibrators V1 and V2.

std::string told_of(Subject of, const std::string& measure, const std::string& field, const std::string& word,
                    const std::string& file = "own.toml", bool is_none_of = false, const std::string& results = "") {
  RuleText text{of, measure, of == Subject::result ? "at_most" : "within", {of == Subject::result ? "5 mg" : "5 %"}};
  text.where = {{field, {word}, {}, {}, is_none_of}};
  BookText book;
  book.samples = "sample,pump,batch,method,started,stopped\nS1,P1,B1,method 7,2026-09-21T08:00,2026-09-21T16:00\n";
  book.results = results;
  book.settings += "[rules]\npacks = [\"own.toml\"]\n";
  RulesText rules{{text}};
  JudgedBook judged(book, rules);
  RuleSet set = judged.screening().rules();
  for (Rule& rule : set.rules) rule.place = {file, 7, 0};
  std::string said;
  for (const Diagnostic& one : unmet_names(judged.book(), set)) said += to_text(one) + "\n";
  return said;
}

TEST(UnmetNames, AreToldWithTheNearest) {
  EXPECT_EQ(told_of(Subject::sample, "drift", "method", "method 8"),
            "own.toml:7: remark: own/drift asks for method 'method 8', which nothing in this book has: it is held to "
            "nothing by that; did you mean 'method 7'? [rule/unmet-name]\n");
  EXPECT_EQ(
      told_of(Subject::sample, "drift", "pump", "P3"),
      "own.toml:7: remark: own/drift asks for pump 'P3', which nothing in this book has: it is held to nothing by "
      "that; correct the name, or leave it if it is still to come [rule/unmet-name]\n");
}

TEST(UnmetNames, AreToldWhereARuleLeavesThemOut) {
  EXPECT_EQ(told_of(Subject::sample, "drift", "method", "method 8", "own.toml", true),
            "own.toml:7: remark: own/drift leaves out method 'method 8', which nothing in this book has: it leaves out "
            "nothing by that; did you mean 'method 7'? [rule/unmet-name]\n");
}

TEST(UnmetNames, AreOfEveryFieldThatNames) {
  for (const auto& [of, measure, field] : {std::tuple(Subject::sample, "drift", "batch"),
                                           {Subject::sample, "drift", "method"},
                                           {Subject::sample, "drift", "analysis"},
                                           {Subject::sample, "drift", "fraction"},
                                           {Subject::set, "rsd", "calibrator"},
                                           {Subject::reading, "correction", "by"},
                                           {Subject::pump, "drift.mean", "instrument"},
                                           {Subject::calibrator, "as-found.error", "instrument"}}) {
    EXPECT_NE(told_of(of, measure, field, "nobody's"), "") << field;
  }
}

TEST(UnmetNames, AreNotThoseThatTheBookHas) {
  EXPECT_EQ(told_of(Subject::sample, "drift", "pump", "P1"), "");
  EXPECT_EQ(told_of(Subject::sample, "drift", "batch", "B1"), "");
  EXPECT_EQ(told_of(Subject::sample, "drift", "method", "method 7"), "");
  EXPECT_EQ(told_of(Subject::calibrator, "as-found.error", "instrument", "V1"), "");
  EXPECT_NE(told_of(Subject::calibrator, "as-found.error", "instrument", "P1"), "");
}

// Names are the book's own, whoever asks for them; methods, analyses and fractions are words of the trade, which a pack
// for many books may ask for.
TEST(UnmetNames, OfAPackForManyBooksAreToldWhereOnlyABookCanHaveThem) {
  for (const auto& [of, measure, field, is_told] : {std::tuple(Subject::sample, "drift", "batch", true),
                                                    {Subject::set, "rsd", "calibrator", true},
                                                    {Subject::reading, "correction", "by", true},
                                                    {Subject::pump, "drift.mean", "instrument", true},
                                                    {Subject::calibrator, "as-found.error", "instrument", true},
                                                    {Subject::sample, "drift", "method", false},
                                                    {Subject::sample, "drift", "analysis", false},
                                                    {Subject::sample, "drift", "fraction", false}}) {
    EXPECT_EQ(told_of(of, measure, field, "nobody's", "shipped.toml") != "", is_told) << field;
  }
}

// What the laboratory will call it nobody knows before it has answered.
TEST(UnmetNames, OfAnalytesAreToldOnceThereAreResults) {
  EXPECT_EQ(told_of(Subject::result, "mass", "analyte", "dusts"), "");
  EXPECT_EQ(told_of(Subject::result, "mass", "analyte", "dusts", "own.toml", false,
                    "sample,analyte,amount [mg]\nS1,dust,1\n"),
            "own.toml:7: remark: own/mass asks for analyte 'dusts', which nothing in this book has: it is held to "
            "nothing by that; did you mean 'dust'? [rule/unmet-name]\n");
}

// What a rule may be about though no sample has it yet: a described method, and the fraction of a described sampler.
TEST(UnmetNames, AreNotThoseThatSomebodyDescribes) {
  RuleText rule{Subject::sample, "drift", "within", {"5 %"}};
  rule.where = {{"method", {"method 9"}, {}, {}}, {"fraction", {"respirable"}, {}, {}}};
  RulesText rules{{rule}, {sampler("cyclone", 2.2)}};
  rules.samplers[0].fraction = "respirable";
  RuleSet set = rules.rule_set();
  set.described_words[static_cast<std::size_t>(Selector::method)].insert("method 9");
  BookText text;
  text.settings += "[rules]\npacks = [\"own.toml\"]\n";
  EXPECT_TRUE(unmet_names(book_of(text), set).empty());
}

// A pack for many books may be about methods that this one has none of.
TEST(UnmetNames, OfAPackForManyBooksAreItsOwn) {
  EXPECT_EQ(told_of(Subject::sample, "drift", "method", "method 8", "shipped.toml"), "");
  EXPECT_NE(told_of(Subject::sample, "drift", "pump", "P3", "shipped.toml"), "");
}

}  // namespace
}  // namespace driftwarden::unmet_names_test
