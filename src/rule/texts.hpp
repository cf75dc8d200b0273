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
  bool is_plain_at_zero = false;  // a limit of zero needs no words: "was used 14 days after it was due"
  bool is_of_readings = false;    // a count of them: of none it is told whether all are struck out

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
  constexpr MeasureTexts of_readings() const {
    MeasureTexts changed = *this;
    changed.is_of_readings = true;
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
  std::string_view no_curve;          // of a sampler's cut, these six
  std::string_view no_exponent;
  std::string_view nominal_beyond_law;
  std::string_view beyond_law;
  std::string_view no_convention;
  std::string_view nothing_through;
  std::string_view less_than;  // of a result of the laboratory, these nine
  std::string_view counted;
  std::string_view no_blank;
  std::string_view no_limit;
  std::string_view no_air;
  std::string_view no_uncertainty;
  std::string_view not_weighed;
  std::string_view no_due;
  std::string_view no_control;
};

// Every sentence of a finding in one language. What is not here is a name, a figure with its unit, or a place.
struct Texts {
  std::array<std::span<const MeasureTexts>, subject_count> measures;  // by Subject, in the order of its measures
  std::array<LimitTexts, 9> limits;                                   // by Limit::Form
  NearTexts near;
  LackTexts lacks;
  std::array<std::string_view, 3> sets;      // by Stage
  std::array<std::string_view, 4> bases;     // pre, post, mean, nominal
  std::array<std::string_view, 4> of_bases;  // the same, of a change from before to after: " of the mean flow"
  std::array<std::string_view, 4> beside;    // the same, before the flow itself: "2.1 L/min, nominal 2 L/min"
  std::string_view of_their_mean;            // of a spread that is relative
  std::string_view of_dusts;                 // of the farther end of a range over dusts
  std::string_view one_struck_out;           // {set}; instead of a count of none
  std::string_view all_struck_out;           // {n}, {set}
  std::string_view noted;                    // {note}, of a fault
  std::string_view not_noted;
  std::string_view period;  // {from}, {to}
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
  std::array<std::string_view, 2> taken_off;      // of a result: the blanks, the control filters
  std::string_view near_word;                     // {word}
  std::string_view left_out;                      // {rules}
};

// Those texts that stand alone. All must be there.
inline constexpr std::array single_texts{
    &Texts::of_their_mean,
    &Texts::of_dusts,
    &Texts::one_struck_out,
    &Texts::all_struck_out,
    &Texts::noted,
    &Texts::not_noted,
    &Texts::period,
    &Texts::one_day,
    &Texts::days,
    &Texts::or_,
    &Texts::to,
    &Texts::and_,
    &Texts::rests_on,
    &Texts::known_to,
    &Texts::by_our_reading,
    &Texts::passed_over,
    &Texts::unknown_where,
    &Texts::bad_record,
    &Texts::near_word,
    &Texts::left_out,
};
inline constexpr std::array near_texts{&NearTexts::chance, &NearTexts::guarded, &NearTexts::unguarded};
inline constexpr std::array lack_texts{
    &LackTexts::not_said,           &LackTexts::no_readings, &LackTexts::none_before,
    &LackTexts::none_during,        &LackTexts::none_after,  &LackTexts::all_struck_out,
    &LackTexts::temperature,        &LackTexts::pressure,    &LackTexts::humidity,
    &LackTexts::scale_conditions,   &LackTexts::no_curve,    &LackTexts::no_exponent,
    &LackTexts::nominal_beyond_law, &LackTexts::beyond_law,  &LackTexts::no_convention,
    &LackTexts::nothing_through,    &LackTexts::less_than,   &LackTexts::counted,
    &LackTexts::no_blank,           &LackTexts::no_limit,    &LackTexts::no_air,
    &LackTexts::no_uncertainty,     &LackTexts::not_weighed, &LackTexts::no_due,
    &LackTexts::no_control,
};

// What only these sentences may leave open, and a rule's own may not.
inline constexpr std::array<std::string_view, 13> own_placeholders{
    "base",   "of_base", "of_mean", "of_dusts", "beside",  "flow",     "from",
    "period", "other",   "seen",    "blanks",   "balance", "taken_off"};

namespace texts_check {

template <std::size_t count>
constexpr bool are_there(const std::array<std::string_view, count>& all) {
  for (const std::string_view text : all) {
    if (text.empty()) return false;
  }
  return true;
}
template <class Of, std::size_t count>
constexpr bool has_all(const Of& texts, const std::array<std::string_view Of::*, count>& all) {
  for (const auto text : all) {
    if ((texts.*text).empty()) return false;
  }
  return true;
}

constexpr bool is_own_placeholder(std::string_view name) {
  for (const std::string_view own : own_placeholders) {
    if (own == name) return true;
  }
  return false;
}

// Whether a sentence leaves open only what can be filled in.
constexpr bool can_be_filled(std::string_view sentence, Subject of, bool is_missing) {
  for (SentencePart part; !sentence.empty(); sentence = part.rest) {
    part = first_part(sentence);
    if (!part.is_whole || part.text == "says") return false;  // it would say itself
    const bool is_own = is_own_placeholder(part.text) || (is_missing && part.text == "why");
    if (part.is_placeholder && !is_own && !has_placeholder(of, part.text)) return false;
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
      are_complete(rows[4], catalogue::pump_measures) && are_complete(rows[5], catalogue::batch_measures) &&
      are_complete(rows[6], catalogue::result_measures);
  for (const LimitTexts& limit : texts.limits) {
    if (limit.broken.empty() || limit.kept.empty()) return false;
  }
  return has_measures && has_all(texts, single_texts) && has_all(texts.near, near_texts) &&
         has_all(texts.lacks, lack_texts) && are_there(texts.sets) && are_there(texts.bases) &&
         are_there(texts.beside) && are_there(texts.unknown_words) && are_there(texts.taken_off);
}

}  // namespace texts_check

}  // namespace driftwarden
