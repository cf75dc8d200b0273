// SPDX-License-Identifier: MIT
#include "rule/condition.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/limit.hpp"
#include "record/instrument.hpp"
#include "record/laboratory_result.hpp"
#include "record/reading.hpp"
#include "record/sample.hpp"

namespace driftwarden {

namespace {

constexpr Field text(std::string_view name, std::string_view definition) {
  return {name, MeasureKind::word, Dimension::count, {}, definition};
}
constexpr Field word(std::string_view name, std::span<const std::string_view> words, std::string_view definition) {
  return {name, MeasureKind::word, Dimension::count, words, definition};
}
constexpr Field yes_no(std::string_view name, std::string_view definition) {
  return {name, MeasureKind::yes_no, Dimension::count, {}, definition};
}
constexpr Field number(std::string_view name, Dimension dimension, std::string_view definition) {
  return {name, MeasureKind::number, dimension, {}, definition};
}

constexpr Field stage = word("stage", stage_words, "when it was read");
constexpr Field principle = word("principle", principle_words, "how the calibrator measures flow");

constexpr Field sample_fields[] = {
    word("kind", sample_kind_words, "sample or blank"),
    text("batch", "the batch it belongs to"),
    text("pump", "the pump it was drawn with"),
    text("sampler", "the sampler in line"),
    text("fraction", "the fraction its sampler takes"),
    number("nominal", Dimension::flow, "its nominal flow, or its sampler's"),
    text("method", "the method it was taken by"),
    text("analysis", "the analysis wanted"),
    number("paused", Dimension::time, "time the pump was paused"),
    number("warm-up", Dimension::time, "time the pump ran before its flow was read"),
    number("temperature", Dimension::temperature, "temperature while sampling"),
    number("pressure", Dimension::pressure, "absolute pressure while sampling"),
    yes_no("fault", "whether anything was seen that spoils it"),
};
constexpr Field set_fields[] = {
    stage,
    principle,
    text("calibrator", "the calibrator it was read with"),
    text("pump", "the pump that ran"),
    text("sampler", "the sampler in line"),
};
constexpr Field reading_fields[] = {
    stage,
    principle,
    text("calibrator", "the calibrator it was read with"),
    text("pump", "the pump that ran"),
    text("sampler", "the sampler in line"),
    text("by", "who read it"),
};
constexpr Field calibrator_fields[] = {
    text("instrument", "its name"),
    principle,
    word("read-at", read_at_words, "where on the float it is read"),
};
constexpr Field pump_fields[] = {
    text("instrument", "its name"),
    number("drifts", Dimension::count, "how many of its samples have a drift"),
};
constexpr Field result_fields[] = {
    text("analyte", "what was looked for"),
    word("amount", amount_words, "whether a mass of it was found, or fibres were counted"),
    text("batch", "the batch of its sample"),
    text("sampler", "the sampler in line"),
    text("fraction", "the fraction its sampler takes"),
    text("method", "the method its sample was taken by"),
    text("analysis", "the analysis wanted"),
};
constexpr Field batch_fields[] = {text("batch", "its name")};

bool is_in_range(const Condition& condition, double figure) {
  if (condition.at_least && side_of_limit(figure, *condition.at_least) == Side::below) return false;
  return !condition.at_most || side_of_limit(figure, *condition.at_most) != Side::above;
}

}  // namespace

std::span<const Field> fields(Subject subject) {
  switch (subject) {
    case Subject::sample:
      return sample_fields;
    case Subject::set:
      return set_fields;
    case Subject::reading:
      return reading_fields;
    case Subject::calibrator:
      return calibrator_fields;
    case Subject::pump:
      return pump_fields;
    case Subject::batch:
      return batch_fields;
    case Subject::result:
      return result_fields;
  }
  return {};
}

std::optional<std::size_t> field_named(Subject subject, std::string_view name) {
  const std::span<const Field> all = fields(subject);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].name == name) return i;
  }
  return std::nullopt;
}

Applies applies(const Condition& condition, const FieldValue& value) {
  if (condition.at_least || condition.at_most) {
    if (std::isnan(value.figure)) return Applies::unknown;
    return is_in_range(condition, value.figure) ? Applies::yes : Applies::no;
  }
  const bool is_one = std::ranges::find(condition.words, value.word) != condition.words.end();
  return is_one != condition.is_none_of ? Applies::yes : Applies::no;
}

}  // namespace driftwarden
