// SPDX-License-Identifier: MIT
#include "rule/example.hpp"

#include <algorithm>
#include <vector>

#include "diagnostic/suggestion.hpp"
#include "rule/condition_reader.hpp"
#include "rule/english.hpp"
#include "rule/judged_figure.hpp"
#include "rule/pack.hpp"
#include "rule/rule.hpp"
#include "rule/stated_amount.hpp"

namespace driftwarden {

namespace {

constexpr std::string_view outcomes[] = {"valid", "note", "qualified", "undecided", "void", "skipped"};

std::string absolute_name(const Measure& measure) { return std::string(measure.name) + ".absolute"; }

AmountOf amount_of_measure(const Measure& measure) { return {measure.name, measure.dimension, measure.absolute}; }

// A measure seen as a field, to check its words alike.
Field as_field(const Measure& measure) {
  return {measure.name, measure.kind, measure.dimension, measure.words, measure.definition};
}

const Field* field_asked_for(const Rule& rule, std::string_view name) {
  if (std::ranges::find(rule.where, name, &Condition::field) == rule.where.end()) return nullptr;
  const auto index = field_named(rule.of, name);
  return index ? &fields(rule.of)[*index] : nullptr;
}

std::optional<Diagnostic> first_fault(const Result<StatedAmount>& amount) {
  if (amount) return std::nullopt;
  return amount.faults().front();
}

std::optional<Diagnostic> fault_of_value(const Field& field, std::optional<Dimension> absolute, const std::string& text,
                                         const Place& place) {
  if (field.kind != MeasureKind::number) return fault_of_word(field, text, place);
  return first_fault(stated_amount(text, {field.name, field.dimension, absolute}, place));
}

Diagnostic fault_of_unknown_name(const Rule& rule, const std::string& name, const Place& place) {
  const Measure& measure = measure_of(rule);
  std::vector<std::string> known = {std::string(measure.name)};
  if (measure.absolute) known.push_back(absolute_name(measure));
  for (const Condition& condition : rule.where) known.push_back(condition.field);
  return error("example/unknown-name", place,
               in_quotes(name) + " is nothing that rule " + in_quotes(rule.full_name()) + " looks at",
               did_you_mean(name, known));
}

// What an example gives for something; nullptr: nothing.
const std::string* given(const Example& example, const std::string& name) {
  const auto entry = example.given.find(name);
  return entry == example.given.end() ? nullptr : &entry->second;
}

void set_figure(MeasureValue& value, const Result<StatedAmount>& stated) {
  if (stated) (stated->is_absolute ? value.absolute : value.figure) = stated->amount.value;
}

MeasureValue value_in(const Rule& rule, const Example& example) {
  const Measure& measure = measure_of(rule);
  MeasureValue value;
  const std::string* text = given(example, std::string(measure.name));
  if (text != nullptr && measure.kind != MeasureKind::number) value.word = *text;
  if (text != nullptr && measure.kind == MeasureKind::number) {
    set_figure(value, stated_amount(*text, amount_of_measure(measure), example.place));
  }
  if (!measure.absolute) return value;
  if (const std::string* difference = given(example, absolute_name(measure))) {
    const auto stated = stated_amount(*difference, {measure.name, *measure.absolute, {}}, example.place);
    if (stated) value.absolute = stated->amount.value;
  }
  return value;
}

FieldValue field_value_of(const Field& field, const std::string& text, const Place& place) {
  FieldValue value;
  value.word = text;
  if (field.kind != MeasureKind::number) return value;
  const auto stated = stated_amount(text, {field.name, field.dimension, {}}, place);
  if (stated) value.figure = stated->amount.value;
  return value;
}

// Whether an example gives anything that the rule's `where` rules out.
bool is_ruled_out(const Rule& rule, const Example& example) {
  return std::ranges::any_of(rule.where, [&](const Condition& condition) {
    const std::string* text = given(example, condition.field);
    const Field* field = field_asked_for(rule, condition.field);
    if (text == nullptr || field == nullptr) return false;
    return applies(condition, field_value_of(*field, *text, example.place)) == Applies::no;
  });
}

Outcome outcome_in(const Rule& rule, const Example& example) {
  if (is_ruled_out(rule, example)) return Outcome::skipped;
  return judge(rule, value_in(rule, example)).outcome;
}

Diagnostics faults_of_given(const Rule& rule, const Example& example) {
  Diagnostics faults;
  for (const auto& [name, text] : example.given) {
    if (auto fault = fault_of_given(rule, name, text, example.place)) faults.push_back(*std::move(fault));
  }
  return faults;
}

// The rule's own sentence as it reads in an example: names of the book are not known there and stay in braces.
std::string sentence_in(const Rule& rule, const Example& example) {
  const MeasureValue value = value_in(rule, example);
  const Judgement judgement = judge(rule, value);
  const JudgedFigure figure{english, rule, judgement, value.word};
  return filled(rule.sentence, [&](std::string_view name) { return figure.value_of(name); });
}

Diagnostics faults_of_sentence(const Rule& rule, const Example& example) {
  const std::string sentence = sentence_in(rule, example);
  if (example.says.empty() || example.says == sentence) return {};
  return {error("example/says", example.place,
                "rule " + in_quotes(rule.full_name()) +
                    (sentence.empty() ? " has no sentence of its own" : " says " + in_quotes(sentence) + " here"),
                sentence.empty() ? "give the rule a sentence, or take says away" : "write that, if it is meant")};
}

Diagnostics run_example(const Rule& rule, const Example& example) {
  Diagnostics faults = faults_of_given(rule, example);
  if (!faults.empty()) return faults;
  const std::string_view outcome = outcomes[static_cast<std::size_t>(outcome_in(rule, example))];
  if (outcome == example.gives) return faults_of_sentence(rule, example);
  return {error("example/fails", example.place,
                "rule " + in_quotes(rule.full_name()) + " (" + std::string(measure_of(rule).name) + ' ' +
                    rule.limit.text + ") gives " + in_quotes(outcome) + " here, not " + in_quotes(example.gives))};
}

}  // namespace

std::span<const std::string_view> example_outcomes() { return outcomes; }

std::optional<Diagnostic> fault_of_given(const Rule& rule, const std::string& name, const std::string& text,
                                         const Place& place) {
  const Measure& measure = measure_of(rule);
  if (name == measure.name) return fault_of_value(as_field(measure), measure.absolute, text, place);
  if (measure.absolute && name == absolute_name(measure)) {
    return first_fault(stated_amount(text, {name, *measure.absolute, {}}, place));
  }
  if (const Field* field = field_asked_for(rule, name)) return fault_of_value(*field, {}, text, place);
  return fault_of_unknown_name(rule, name, place);
}

Diagnostics run_examples(const Pack& pack) {
  Diagnostics faults;
  for (const Rule& rule : pack.rules) {
    for (const Example& example : rule.examples) {
      const Diagnostics of_example = run_example(rule, example);
      faults.insert(faults.end(), of_example.begin(), of_example.end());
    }
  }
  return faults;
}

}  // namespace driftwarden
