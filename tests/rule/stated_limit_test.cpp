// SPDX-License-Identifier: MIT
#include "rule/stated_limit.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "rule/pack_text.hpp"

namespace driftwarden::stated_limit_test {
namespace {

using Form = Limit::Form;
constexpr double no_end = std::numeric_limits<double>::infinity();

const Measure& measure(std::string_view name) {
  return measures(Subject::sample)[measure_named(Subject::sample, name).value()];
}

WrittenLimit written(Form form, const std::vector<std::string>& values) {
  WrittenLimit limit{form, {}, {"p.toml", 8, 1}};
  for (const std::string& value : values) limit.values.push_back({value, {"p.toml", 8, 10}});
  return limit;
}

Limit limit(Form form, const std::vector<std::string>& values, std::string_view name) {
  const Result<Limit> result = limit_of(written(form, values), measure(name));
  EXPECT_TRUE(result) << lines_of(result.faults());
  return result ? *result : Limit{};
}

std::string faults(Form form, const std::vector<std::string>& values, std::string_view name) {
  return lines_of(limit_of(written(form, values), measure(name)).faults());
}

void expect_ends(const Limit& limit, double low, double high) {
  EXPECT_EQ(limit.low, low) << limit.text;
  EXPECT_EQ(limit.high, high) << limit.text;
}

TEST(StatedLimit, HasItsEndsInTheUnitInside) {
  expect_ends(limit(Form::within, {"5 %"}, "drift"), -0.05, 0.05);
  expect_ends(limit(Form::strictly_within, {"5 %"}, "drift"), -0.05, 0.05);
  expect_ends(limit(Form::at_most, {"8 h"}, "minutes"), -no_end, 480);
  expect_ends(limit(Form::less_than, {"8 h"}, "minutes"), -no_end, 480);
  expect_ends(limit(Form::at_least, {"3"}, "pre.count"), 3, no_end);
  expect_ends(limit(Form::more_than, {"3"}, "pre.count"), 3, no_end);
  expect_ends(limit(Form::between, {"1500 mL/min", "2.5 L/min"}, "flow"), 1.5, 2.5);
}

TEST(StatedLimit, KeepsWhatWasWritten) {
  EXPECT_EQ(limit(Form::within, {"5 %"}, "drift").text, "within 5 %");
  EXPECT_EQ(limit(Form::strictly_within, {"5 %"}, "drift").text, "strictly within 5 %");
  EXPECT_EQ(limit(Form::at_most, {"0 d"}, "calibrator.overdue").text, "at most 0 d");
  EXPECT_EQ(limit(Form::less_than, {"8 h"}, "minutes").text, "less than 8 h");
  EXPECT_EQ(limit(Form::at_least, {"3"}, "pre.count").text, "at least 3");
  EXPECT_EQ(limit(Form::more_than, {"3"}, "pre.count").text, "more than 3");
  EXPECT_EQ(limit(Form::between, {"1.5 L/min", "2.5 L/min"}, "flow").text, "between 1.5 L/min and 2.5 L/min");
  EXPECT_EQ(limit(Form::is, {"no"}, "fault").text, "is no");
  EXPECT_EQ(limit(Form::one_of, {"centre", "top"}, "calibrator.read-at").text, "one of centre, top");
  EXPECT_EQ(limit(Form::at_most, {"8 h"}, "minutes").unit.name, "h");
}

TEST(StatedLimit, OfADifferenceMayBeAbsolute) {
  const Limit absolute = limit(Form::within, {"100 mL/min"}, "drift");
  EXPECT_TRUE(absolute.is_absolute);
  expect_ends(absolute, -0.1, 0.1);
  EXPECT_FALSE(limit(Form::within, {"5 %"}, "drift").is_absolute);
  EXPECT_TRUE(limit(Form::within, {"60 mmHg"}, "pressure.change").is_absolute);
}

TEST(StatedLimit, OfWordsHoldsThem) {
  EXPECT_EQ(limit(Form::is, {"no"}, "fault").words, std::vector<std::string>({"no"}));
  EXPECT_EQ(limit(Form::one_of, {"centre", "top"}, "calibrator.read-at").words,
            std::vector<std::string>({"centre", "top"}));
}

TEST(StatedLimit, MustBeOfAWordTheMeasureCanBe) {
  EXPECT_EQ(faults(Form::one_of, {"center", "top"}, "calibrator.read-at"),
            "p.toml:8:10: error: 'center' is nothing that calibrator.read-at can be; did you mean 'centre'? "
            "[limit/unknown-word]\n");
  EXPECT_EQ(faults(Form::is, {"maybe"}, "fault"),
            "p.toml:8:10: error: 'maybe' is nothing that fault can be; known are yes, no [limit/unknown-word]\n");
}

TEST(StatedLimit, MustFitTheKindOfItsMeasure) {
  EXPECT_EQ(faults(Form::at_most, {"1"}, "fault"),
            "p.toml:8:1: error: 'at_most' does not fit fault, which is yes or no; use is or one_of "
            "[limit/wrong-form]\n");
  EXPECT_EQ(faults(Form::within, {"1"}, "calibrator.read-at"),
            "p.toml:8:1: error: 'within' does not fit calibrator.read-at, which is a word; use is or one_of "
            "[limit/wrong-form]\n");
  EXPECT_EQ(faults(Form::is, {"5 %"}, "drift"),
            "p.toml:8:1: error: 'is' does not fit drift, which is a number; use between, at_most or at_least "
            "[limit/wrong-form]\n");
}

TEST(StatedLimit, ToBothSidesIsForDifferencesOnly) {
  EXPECT_EQ(faults(Form::within, {"0.2 L/min"}, "flow"),
            "p.toml:8:1: error: 'within' does not fit flow, which is no difference; use between, at_most or at_least "
            "[limit/wrong-form]\n");
  EXPECT_EQ(faults(Form::within, {"15 °C"}, "temperature.change"), "");
}

TEST(StatedLimit, ToBothSidesHasNoSign) {
  EXPECT_EQ(faults(Form::within, {"-5 %"}, "drift"),
            "p.toml:8:10: error: '-5 %' is negative; a limit to both sides is written without a sign "
            "[limit/negative]\n");
}

TEST(StatedLimit, BetweenTwoAmountsStartsWithTheSmaller) {
  EXPECT_EQ(faults(Form::between, {"2.5 L/min", "1.5 L/min"}, "flow"),
            "p.toml:8:1: error: '2.5 L/min' is more than '1.5 L/min'; write the smaller one first [limit/order]\n");
  EXPECT_EQ(faults(Form::between, {"2 L/min", "2 L/min"}, "flow"), "");
}

TEST(StatedLimit, BetweenARatioAndADifferenceIsAnError) {
  EXPECT_EQ(faults(Form::between, {"-5 %", "0.1 L/min"}, "drift"),
            "p.toml:8:1: error: '-5 %' and '0.1 L/min' are not of one kind; write both relative or both absolute "
            "[limit/mixed]\n");
}

TEST(StatedLimit, ReportsEachAmountThatCannotBeRead) {
  EXPECT_EQ(faults(Form::between, {"1.5", "5 kPa"}, "minutes"),
            "p.toml:8:10: error: '1.5' lacks a unit; units read are s, min, h, d [amount/no-unit]\n"
            "p.toml:8:10: error: '5 kPa' is a pressure, minutes a time; units read are s, min, h, d "
            "[amount/wrong-dimension]\n");
}

}  // namespace
}  // namespace driftwarden::stated_limit_test
