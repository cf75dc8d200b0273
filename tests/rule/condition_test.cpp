// SPDX-License-Identifier: MIT
#include "rule/condition.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "record/instrument.hpp"
#include "record/reading.hpp"
#include "record/sample.hpp"

namespace driftwarden::condition_test {
namespace {

// input: figures just outside a range.

const double nan = std::numeric_limits<double>::quiet_NaN();

Condition words_condition(std::vector<std::string> words) { return {"method", std::move(words), {}, {}}; }
Condition none_of(std::vector<std::string> words) { return {"method", std::move(words), {}, {}, true}; }
Condition range(std::optional<double> at_least, std::optional<double> at_most) {
  return {"nominal", {}, at_least, at_most};
}
Applies applies_to_word(const Condition& condition, std::string_view word) { return applies(condition, {nan, word}); }
Applies applies_to_figure(const Condition& condition, double figure) { return applies(condition, {figure, {}}); }

TEST(Condition, OfOneWordAppliesToThatWordOnly) {
  EXPECT_EQ(applies_to_word(words_condition({"A"}), "A"), Applies::yes);
  EXPECT_EQ(applies_to_word(words_condition({"A"}), "a"), Applies::no);
  EXPECT_EQ(applies_to_word(words_condition({"A"}), "AB"), Applies::no);
}

TEST(Condition, OfAListAppliesToEachOfItsWords) {
  EXPECT_EQ(applies_to_word(words_condition({"A", "B"}), "A"), Applies::yes);
  EXPECT_EQ(applies_to_word(words_condition({"A", "B"}), "B"), Applies::yes);
  EXPECT_EQ(applies_to_word(words_condition({"A", "B"}), "C"), Applies::no);
}

TEST(Condition, OfWordsDoesNotApplyWhereNothingWasWritten) {
  EXPECT_EQ(applies_to_word(words_condition({"A"}), ""), Applies::no);
}

TEST(Condition, OfNoneOfSomeWordsAppliesToEveryOther) {
  EXPECT_EQ(applies_to_word(none_of({"A", "B"}), "A"), Applies::no);
  EXPECT_EQ(applies_to_word(none_of({"A", "B"}), "B"), Applies::no);
  EXPECT_EQ(applies_to_word(none_of({"A", "B"}), "C"), Applies::yes);
  EXPECT_EQ(applies_to_word(none_of({"A", "B"}), "AB"), Applies::yes);
}

TEST(Condition, OfNoneOfSomeWordsAppliesWhereNothingWasWritten) {
  EXPECT_EQ(applies_to_word(none_of({"A"}), ""), Applies::yes);
}

TEST(Condition, OfARangeIncludesItsEnds) {
  const Condition condition = range(1.0, 2.5);
  EXPECT_EQ(applies_to_figure(condition, 0.999), Applies::no);
  EXPECT_EQ(applies_to_figure(condition, 1.0), Applies::yes);
  EXPECT_EQ(applies_to_figure(condition, 1.0 - 1e-12), Applies::yes);
  EXPECT_EQ(applies_to_figure(condition, 2.5), Applies::yes);
  EXPECT_EQ(applies_to_figure(condition, 2.501), Applies::no);
}

TEST(Condition, OfARangeMayBeOpenAtOneEnd) {
  EXPECT_EQ(applies_to_figure(range(1.0, {}), 1e6), Applies::yes);
  EXPECT_EQ(applies_to_figure(range(1.0, {}), 0.5), Applies::no);
  EXPECT_EQ(applies_to_figure(range({}, 1.0), -1e6), Applies::yes);
  EXPECT_EQ(applies_to_figure(range({}, 1.0), 1.5), Applies::no);
}

TEST(Condition, OfARangeIsUnknownWithoutAFigure) {
  EXPECT_EQ(applies_to_figure(range(1.0, {}), nan), Applies::unknown);
}

TEST(FieldCatalogue, FindsEachFieldByItsName) {
  for (const Subject subject : {Subject::sample, Subject::set, Subject::reading, Subject::calibrator, Subject::pump,
                                Subject::batch, Subject::result}) {
    ASSERT_FALSE(fields(subject).empty());
    for (std::size_t i = 0; i < fields(subject).size(); ++i) {
      EXPECT_EQ(field_named(subject, fields(subject)[i].name), i);
      EXPECT_FALSE(fields(subject)[i].definition.empty());
    }
  }
  EXPECT_FALSE(field_named(Subject::sample, "drift"));
}

bool may_be(Subject subject, std::string_view field, std::string_view word) {
  const std::span<const std::string_view> known = fields(subject)[field_named(subject, field).value()].words;
  return std::find(known.begin(), known.end(), word) != known.end();
}

TEST(FieldCatalogue, UsesTheWordsOfTheRecords) {
  EXPECT_TRUE(may_be(Subject::sample, "kind", to_text(SampleKind::sample)));
  EXPECT_TRUE(may_be(Subject::sample, "kind", to_text(SampleKind::blank)));
  for (const Stage stage : {Stage::pre, Stage::field, Stage::post}) {
    EXPECT_TRUE(may_be(Subject::reading, "stage", to_text(stage)));
  }
  using enum Principle;
  for (const Principle principle : {volumetric, bubble, rotameter, mass, orifice}) {
    EXPECT_TRUE(may_be(Subject::calibrator, "principle", to_text(principle)));
  }
  EXPECT_TRUE(may_be(Subject::calibrator, "read-at", to_text(ReadAt::centre)));
  EXPECT_TRUE(may_be(Subject::calibrator, "read-at", to_text(ReadAt::top)));
}

}  // namespace
}  // namespace driftwarden::condition_test
