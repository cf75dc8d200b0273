// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <span>
#include <string_view>

#include "rule/measure_catalogue.hpp"
#include "rule/sentence.hpp"

namespace driftwarden {

// How the figure of one measure is told. Which sentence it is goes by the figure, so that none of them needs a sign or
// a "not"; a sentence that isn't there leaves it to `says`.
struct MeasureTexts {
  Subject of = Subject::sample;
  std::size_t number = 0;         // of the measure, in measures(of)
  std::string_view says;          // of a yes_no: yes
  std::string_view negative;      // below zero
  std::string_view none;          // zero; of a yes_no: no
  std::string_view one;           // a count of one
  std::string_view missing;       // {why} is one of LackTexts
  bool is_plain_at_zero = false;  // a limit of zero needs no words: "was used 14 days past its due date"

  constexpr MeasureTexts with(std::string_view MeasureTexts::*member, std::string_view text) const {
    MeasureTexts changed = *this;
    changed.*member = text;
    return changed;
  }
  constexpr MeasureTexts below(std::string_view text) const { return with(&MeasureTexts::negative, text); }
  constexpr MeasureTexts at_none(std::string_view text) const { return with(&MeasureTexts::none, text); }
  constexpr MeasureTexts at_one(std::string_view text) const { return with(&MeasureTexts::one, text); }
  constexpr MeasureTexts otherwise(std::string_view text) const { return with(&MeasureTexts::missing, text); }
  constexpr MeasureTexts plain_at_zero() const {
    MeasureTexts changed = *this;
    changed.is_plain_at_zero = true;
    return changed;
  }
};

// What follows the figure: the limit, where the figure does not keep it, and where it does.
struct LimitTexts {
  std::string_view broken;
  std::string_view kept;
};

// What follows a figure that keeps its limit, and yet is told.
struct NearTexts {
  std::string_view chance;     // the true value may well lie beyond: {chance}
  std::string_view guarded;    // within the guard band: {guard}, {chance}
  std::string_view unguarded;  // its uncertainty can't be stated: {guard}
};

// Why a figure is missing.
struct LackTexts {
  std::string_view not_said;
  std::string_view no_readings;
  std::string_view none_before;
  std::string_view none_during;
  std::string_view none_after;
  std::string_view all_struck_out;    // {set}
  std::string_view temperature;       // {calibrator}
  std::string_view pressure;          // {calibrator}
  std::string_view humidity;          // {calibrator}
  std::string_view scale_conditions;  // {calibrator}
};

// Every sentence of a finding in one language. What is not here is a name, a figure with its unit, or a place.
struct Texts {
  std::array<std::span<const MeasureTexts>, 6> measures;  // by Subject, in the order of its measures
  std::array<LimitTexts, 9> limits;                       // by Limit::Form
  NearTexts near;
  LackTexts lacks;
  std::array<std::string_view, 3> sets;      // by Stage
  std::array<std::string_view, 4> bases;     // pre, post, mean, nominal
  std::array<std::string_view, 4> of_bases;  // the same, of a change from before to after: " of the mean flow"
  std::string_view one_day;
  std::string_view days;                          // {figure}
  std::string_view or_;                           // between the two halves of a limit, and the words of a list
  std::string_view to;                            // between its ends
  std::string_view and_;                          // between names
  std::string_view rests_on;                      // {n}
  std::string_view known_to;                      // {n}, {u}
  std::string_view by_our_reading;                // {clause}
  std::string_view passed_over;                   // behind a missing figure
  std::string_view unknown_where;                 // {fields}
  std::string_view bad_record;                    // {problem}
  std::array<std::string_view, 3> unknown_words;  // {word}, by Selector
  std::string_view near_word;                     // {word}
  std::string_view left_out;                      // {rules}
};

namespace texts_check {

template <std::size_t count>
constexpr bool are_there(const std::array<std::string_view, count>& all) {
  for (const std::string_view text : all) {
    if (text.empty()) return false;
  }
  return true;
}

// Whether a sentence leaves open only what can be filled in.
constexpr bool can_be_filled(std::string_view sentence, Subject of, bool is_missing) {
  for (SentencePart part; !sentence.empty(); sentence = part.rest) {
    part = first_part(sentence);
    if (!part.is_whole) return false;
    const bool is_of_catalogue = part.text == "base" || part.text == "of_base" || (is_missing && part.text == "why");
    if (part.is_placeholder && !is_of_catalogue && !has_placeholder(of, part.text)) return false;
  }
  return true;
}

constexpr bool is_sound(const MeasureTexts& texts, const Measure& measure) {
  const bool is_yes_no = measure.kind == MeasureKind::yes_no;
  const bool is_count = measure.kind == MeasureKind::number && measure.dimension == Dimension::count;
  if (texts.says.empty() || texts.missing.empty()) return false;
  if ((is_yes_no || is_count) && texts.none.empty()) return false;
  if (is_count && texts.one.empty()) return false;
  for (const std::string_view sentence : {texts.says, texts.negative, texts.none, texts.one}) {
    if (!can_be_filled(sentence, measure.of, false)) return false;
  }
  return can_be_filled(texts.missing, measure.of, true);
}

template <std::size_t measures_there>
constexpr bool are_complete(std::span<const MeasureTexts> rows, const Measure (&measures)[measures_there]) {
  if (rows.size() != measures_there) return false;
  for (std::size_t i = 0; i < measures_there; ++i) {
    if (rows[i].of != measures[i].of || rows[i].number != i || !is_sound(rows[i], measures[i])) return false;
  }
  return true;
}

// Every text is there, stands at its place, and leaves open only what can be filled in.
constexpr bool is_complete(const Texts& texts) {
  const auto& rows = texts.measures;
  const bool has_measures =
      are_complete(rows[0], catalogue::sample_measures) && are_complete(rows[1], catalogue::set_measures) &&
      are_complete(rows[2], catalogue::reading_measures) && are_complete(rows[3], catalogue::calibrator_measures) &&
      are_complete(rows[4], catalogue::pump_measures) && are_complete(rows[5], catalogue::batch_measures);
  for (const LimitTexts& limit : texts.limits) {
    if (limit.broken.empty() || limit.kept.empty()) return false;
  }
  const NearTexts& near = texts.near;
  const LackTexts& lacks = texts.lacks;
  const std::array others{near.chance,
                          near.guarded,
                          near.unguarded,
                          lacks.not_said,
                          lacks.no_readings,
                          lacks.none_before,
                          lacks.none_during,
                          lacks.none_after,
                          lacks.all_struck_out,
                          lacks.temperature,
                          lacks.pressure,
                          lacks.humidity,
                          lacks.scale_conditions,
                          texts.one_day,
                          texts.days,
                          texts.or_,
                          texts.to,
                          texts.and_,
                          texts.rests_on,
                          texts.known_to,
                          texts.by_our_reading,
                          texts.passed_over,
                          texts.unknown_where,
                          texts.bad_record,
                          texts.near_word,
                          texts.left_out};
  return has_measures && are_there(others) && are_there(texts.sets) && are_there(texts.bases) &&
         are_there(texts.unknown_words);
}

}  // namespace texts_check

}  // namespace driftwarden
