// SPDX-License-Identifier: MIT
#include "rule/judgement.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/limit.hpp"

namespace driftwarden {

namespace {

constexpr std::string_view outcome_words[] = {"met", "note", "qualified", "undecided", "void", "skipped"};

// The word of a word or a yes_no; "" where it is missing.
std::string_view word_in(const MeasureValue& value) {
  if (!value.word.empty() || std::isnan(value.figure)) return value.word;
  return value.figure != 0 ? "yes" : "no";
}

Judgement judge_word(const Rule& rule, std::string_view word) {
  if (word.empty()) return judge_missing(rule);
  Judgement judgement;
  const bool is_one = std::ranges::find(rule.limit.words, word) != rule.limit.words.end();
  judgement.outcome = is_one ? Outcome::met : outcome_of(rule.otherwise);
  return judgement;
}

// The end that a figure is nearer to is the one it is held to: inside both it says more, and beyond one it is that one.
Judgement judge_figure(const Rule& rule, const Limit& limit, double figure) {
  if (std::isnan(figure)) return judge_missing(rule);
  const bool upper = limit.high - figure <= figure - limit.low;
  Judgement judgement;
  judgement.figure = figure;
  judgement.limit = upper ? limit.high : limit.low;
  const Side side = side_of_limit(figure, judgement.limit);
  judgement.margin = side == Side::on ? 0 : (upper ? limit.high - figure : figure - limit.low);
  const bool met = side == Side::on ? includes_its_ends(limit.form) : (side == Side::below) == upper;
  judgement.outcome = met ? Outcome::met : outcome_of(rule.otherwise);
  return judgement;
}

}  // namespace

template <>
std::span<const std::string_view> words<Outcome>() {
  return outcome_words;
}

std::string_view to_text(Outcome outcome) { return word_of(outcome); }

Outcome outcome_of(Otherwise otherwise) {
  if (otherwise == Otherwise::note) return Outcome::note;
  return otherwise == Otherwise::qualify ? Outcome::qualified : Outcome::void_;
}

Outcome outcome_of(Absent absent) {
  switch (absent) {
    case Absent::void_:
      return Outcome::void_;
    case Absent::qualify:
      return Outcome::qualified;
    case Absent::skip:
      return Outcome::skipped;
    case Absent::undecided:
      break;
  }
  return Outcome::undecided;
}

Judgement judge_missing(const Rule& rule) {
  Judgement judgement;
  judgement.outcome = outcome_of(rule.absent);
  return judgement;
}

Limit limit_for(const Rule& rule, const MeasureValue& value) {
  if (!has_alternative(rule.limit)) return rule.limit;
  const double own = rule.limit.is_absolute ? value.absolute : value.figure;
  const double other = rule.limit.is_absolute ? value.figure : value.absolute;
  const double turned = rule.limit.or_within * std::abs(own / other);
  if (!(turned > rule.limit.high)) return rule.limit;  // not wider, or nobody can say
  Limit wider = rule.limit;
  wider.high = turned;
  wider.low = -turned;
  return wider;
}

Limit limit_held_to(const Rule& rule, const Judgement& judgement) {
  if (!has_alternative(rule.limit) || std::isnan(judgement.limit)) return rule.limit;
  Limit held = rule.limit;
  held.high = std::abs(judgement.limit);
  held.low = -held.high;
  return held;
}

Judgement judge(const Rule& rule, const MeasureValue& value) {
  if (is_of_words(rule.limit.form)) return judge_word(rule, word_in(value));
  const double figure = rule.limit.is_absolute ? value.absolute : value.figure;
  if (!has_alternative(rule.limit)) return judge_figure(rule, rule.limit, figure);
  return judge_figure(rule, limit_for(rule, value), figure);
}

}  // namespace driftwarden
