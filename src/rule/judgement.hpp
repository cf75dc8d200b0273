// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <limits>
#include <string_view>

#include "rule/rule.hpp"

namespace driftwarden {

// What a rule says to one subject. skipped: the measure is missing and the rule doesn't mind.
enum class Outcome : std::uint8_t { met, note, qualified, undecided, void_, skipped };

template <>
std::span<const std::string_view> words<Outcome>();
std::string_view to_text(Outcome outcome);

// A measure of one subject. Missing: NaN, and no word.
struct MeasureValue {
  double figure = std::numeric_limits<double>::quiet_NaN();  // inside unit; yes_no: 1 or 0
  // The difference behind a ratio, inside unit of Measure::absolute: (post - pre) in L/min for drift.
  double absolute = std::numeric_limits<double>::quiet_NaN();
  std::string_view word = {};  // of a word; a yes_no may be given so, too
  // The flow that a drift or a deviation is about and the one that it is reckoned from, L/min.
  double flow_l_min = std::numeric_limits<double>::quiet_NaN();
  double from_l_min = std::numeric_limits<double>::quiet_NaN();
};

inline MeasureValue number_value(double figure, double absolute = std::numeric_limits<double>::quiet_NaN()) {
  return {figure, absolute, {}};
}
inline MeasureValue yes_no_value(bool yes) {
  return {yes ? 1.0 : 0.0, std::numeric_limits<double>::quiet_NaN(), yes ? "yes" : "no"};
}
// A flow as a distance from another, relative to that one.
inline MeasureValue deviation_value(double flow_l_min, double from_l_min) {
  const double difference = flow_l_min - from_l_min;
  return {difference / from_l_min, difference, {}, flow_l_min, from_l_min};
}

struct Judgement {
  Outcome outcome = Outcome::undecided;
  // What was compared: the figure, or the absolute difference where the limit is one. NaN: nothing was.
  double figure = std::numeric_limits<double>::quiet_NaN();
  // The nearer end of the limit, with its sign; NaN for words and where nothing was compared.
  double limit = std::numeric_limits<double>::quiet_NaN();
  // How far inside (> 0) or beyond (< 0) that end, in the unit of the figure; 0 on it, also where a strict limit isn't
  // met for that. NaN as for limit.
  double margin = std::numeric_limits<double>::quiet_NaN();
};

Outcome outcome_of(Otherwise otherwise);
Outcome outcome_of(Absent absent);

// The limit that a subject is held to. Where either of two will do it is the wider for this subject: within 5 % or
// 0.1 L/min is within 5.5 % for a change of 0.09 L/min that is 4.95 %. `value` gives the base by which one is turned
// into the other; without it only the first counts.
Limit limit_for(const Rule& rule, const MeasureValue& value);
// The same, of what was judged already.
Limit limit_held_to(const Rule& rule, const Judgement& judgement);

// Holds a measure to a rule's limit. Whether the rule applies is asked before (see condition.hpp). Allocates only
// where the limit has an alternative.
Judgement judge(const Rule& rule, const MeasureValue& value);
// The measure is missing, or nobody can say whether the rule applies.
Judgement judge_missing(const Rule& rule);

}  // namespace driftwarden
