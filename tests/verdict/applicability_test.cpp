// SPDX-License-Identifier: MIT
#include "verdict/applicability.hpp"

#include <gtest/gtest.h>

#include "support/book_text.hpp"

namespace driftwarden::applicability_test {
namespace {

Condition is(std::string field, std::vector<std::string> words) { return {std::move(field), std::move(words), {}, {}}; }
Condition range(std::string field, std::optional<double> at_least, std::optional<double> at_most) {
  return {std::move(field), {}, at_least, at_most};
}

Rule rule_where(std::vector<Condition> where, Subject of = Subject::sample) {
  Rule rule = RuleText{of, of == Subject::reading ? "actual" : "flow", "at_most", {"9 L/min"}}.rule();
  rule.where = std::move(where);
  return rule;
}

// S1 with a word or figure in every field; S2 without any; B1 a blank.
BookText described() {
  BookText text;
  text.samples =
      "sample,kind,batch,pump,sampler,nominal [L/min],method,analysis,started,stopped,paused [min],warm-up [min],"
      "temperature [°C],pressure [kPa],fault\n"
      "S1,sample,B-7,P1,cowl,1.7,method 12,fume,2026-09-21T08:00,2026-09-21T16:00,30,20,10,84.5,no\n"
      "S2,,,P2,,,,,2026-09-21T08:00,2026-09-21T16:00,,,,,\n"
      "B1,blank,B-7,,,,,,,,,,,,\n";
  text.instruments += "R1,calibrator,rotameter\n";
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],sampler,by\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,,Kim\n"
      "2026-09-21T16:10,post,S1,R1,1.950,open tube,\n";
  return text;
}

class Applicability : public ::testing::Test {
 protected:
  Applies of_sample(std::string_view sample, std::vector<Condition> where) {
    const SampleContext context{book.screening().basis(), book.figures(sample)};
    return applies_to_sample(rule_where(std::move(where)), context, samplers);
  }
  Applies of_set(std::size_t set, std::vector<Condition> where) {
    const SampleContext context{book.screening().basis(), book.figures("S1")};
    return applies_to_set(rule_where(std::move(where), Subject::set), context, context.figures.sets[set]);
  }
  Applies of_reading(Row reading, std::vector<Condition> where) {
    const SampleContext context{book.screening().basis(), book.figures("S1")};
    return applies_to_reading(rule_where(std::move(where), Subject::reading), context, context.figures.sets[reading],
                              reading);
  }

  JudgedBook book{described()};
  std::map<std::string, Sampler> samplers{{"cowl", [] {
                                             Sampler cowl = sampler("cowl", 1.5);
                                             cowl.fraction = "inhalable";
                                             return cowl;
                                           }()}};
};

TEST_F(Applicability, IsToEverySampleWithoutAWhere) {
  EXPECT_EQ(of_sample("S1", {}), Applies::yes);
  EXPECT_EQ(of_sample("S2", {}), Applies::yes);
}

TEST_F(Applicability, IsToABlankOnlyWhereTheKindIsSpokenOf) {
  EXPECT_EQ(of_sample("B1", {}), Applies::no);
  EXPECT_EQ(of_sample("B1", {is("batch", {"B-7"})}), Applies::no);
  EXPECT_EQ(of_sample("B1", {is("kind", {"blank"})}), Applies::yes);
  EXPECT_EQ(of_sample("B1", {is("kind", {"sample"})}), Applies::no);
  EXPECT_EQ(of_sample("S1", {is("kind", {"blank"})}), Applies::no);
}

struct FieldCase {
  const char* field;
  const char* word;
};

TEST_F(Applicability, GoesByTheWordsOfASample) {
  for (const FieldCase& c :
       {FieldCase{"kind", "sample"}, FieldCase{"batch", "B-7"}, FieldCase{"pump", "P1"}, FieldCase{"sampler", "cowl"},
        FieldCase{"fraction", "inhalable"}, FieldCase{"method", "method 12"}, FieldCase{"analysis", "fume"},
        FieldCase{"fault", "no"}}) {
    EXPECT_EQ(of_sample("S1", {is(c.field, {c.word})}), Applies::yes) << c.field;
    EXPECT_EQ(of_sample("S1", {is(c.field, {"another", c.word})}), Applies::yes) << c.field;
    EXPECT_EQ(of_sample("S1", {is(c.field, {"another"})}), Applies::no) << c.field;
  }
}

struct RangeCase {
  const char* field;
  double figure;  // inside unit
};

TEST_F(Applicability, GoesByTheFiguresOfASampleAndBothEndsBelongToARange) {
  for (const RangeCase& c : {RangeCase{"nominal", 1.7}, RangeCase{"paused", 30}, RangeCase{"warm-up", 20},
                             RangeCase{"temperature", 283.15}, RangeCase{"pressure", 84.5}}) {
    EXPECT_EQ(of_sample("S1", {range(c.field, c.figure, c.figure)}), Applies::yes) << c.field;
    EXPECT_EQ(of_sample("S1", {range(c.field, 1.01 * c.figure, {})}), Applies::no) << c.field;
    EXPECT_EQ(of_sample("S1", {range(c.field, {}, 0.99 * c.figure)}), Applies::no) << c.field;
  }
}

TEST_F(Applicability, IsUnknownWhereARangeIsAskedOfAMissingFigure) {
  EXPECT_EQ(of_sample("S2", {range("temperature", 270, {})}), Applies::unknown);
  EXPECT_EQ(of_sample("S2", {is("batch", {"B-7"}), range("temperature", 270, {})}), Applies::no);  // surely not
}

TEST_F(Applicability, OfAWordThatIsNotThereIsNone) {
  EXPECT_EQ(of_sample("S2", {is("batch", {"B-7"})}), Applies::no);
  EXPECT_EQ(of_sample("S2", {is("fault", {"no"})}), Applies::no);
  EXPECT_EQ(of_sample("S2", {is("fraction", {"inhalable"})}), Applies::no);
}

TEST_F(Applicability, NeedsAllConditions) {
  EXPECT_EQ(of_sample("S1", {is("batch", {"B-7"}), is("pump", {"P1"})}), Applies::yes);
  EXPECT_EQ(of_sample("S1", {is("batch", {"B-7"}), is("pump", {"P2"})}), Applies::no);
}

TEST_F(Applicability, GoesByStageCalibratorPrinciplePumpAndSamplerOfASet) {
  EXPECT_EQ(of_set(0, {is("stage", {"pre"})}), Applies::yes);
  EXPECT_EQ(of_set(1, {is("stage", {"pre"})}), Applies::no);
  EXPECT_EQ(of_set(0, {is("calibrator", {"V1"})}), Applies::yes);
  EXPECT_EQ(of_set(1, {is("calibrator", {"V1"})}), Applies::no);
  EXPECT_EQ(of_set(0, {is("principle", {"volumetric"})}), Applies::yes);
  EXPECT_EQ(of_set(1, {is("principle", {"rotameter"})}), Applies::yes);
  EXPECT_EQ(of_set(0, {is("pump", {"P1"})}), Applies::yes);
  EXPECT_EQ(of_set(0, {is("sampler", {"cowl"})}), Applies::yes);
}

TEST_F(Applicability, GoesByReaderAndOwnSamplerOfAReading) {
  EXPECT_EQ(of_reading(0, {is("by", {"Kim"})}), Applies::yes);
  EXPECT_EQ(of_reading(1, {is("by", {"Kim"})}), Applies::no);
  EXPECT_EQ(of_reading(0, {is("sampler", {"cowl"})}), Applies::yes);  // that of its sample
  EXPECT_EQ(of_reading(1, {is("sampler", {"open tube"})}), Applies::yes);
  EXPECT_EQ(of_reading(1, {is("sampler", {"cowl"})}), Applies::no);
  EXPECT_EQ(of_reading(1, {is("stage", {"post"})}), Applies::yes);
}

// A column that the file doesn't have says nothing, and not what happens to be the book's first word.
TEST(ApplicabilityOfAPlainBook, IsToNothingInAColumnTheFileDoesNotHave) {
  BookText text;
  text.readings =
      "taken,stage,sample,calibrator,reading [L/min],note\n"
      "2026-09-21T07:30,pre,S1,V1,2.000,first\n2026-09-21T16:10,post,S1,V1,1.950,first\n";
  JudgedBook book(text);
  const std::string first(book.book().texts.text(TextId{1}));
  ASSERT_NE(first, "");
  const SampleContext context{book.screening().basis(), book.figures("S1")};
  const ReadingSet& set = context.figures.sets.front();
  for (const char* field : {"batch", "sampler"}) {
    EXPECT_EQ(applies_to_sample(rule_where({is(field, {first})}), context, {}), Applies::no) << field;
  }
  EXPECT_EQ(applies_to_set(rule_where({is("sampler", {first})}, Subject::set), context, set), Applies::no);
  for (const char* field : {"by", "sampler"}) {
    EXPECT_EQ(applies_to_reading(rule_where({is(field, {first})}, Subject::reading), context, set, 0), Applies::no)
        << field;
  }
}

}  // namespace
}  // namespace driftwarden::applicability_test
