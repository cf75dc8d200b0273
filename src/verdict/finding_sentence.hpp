// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "rule/judged_figure.hpp"
#include "verdict/finding.hpp"

namespace driftwarden {

// A finding to be told: its sentence is the rule's own where the figure does not keep the limit and the rule has one,
// else the measure's; the limit follows, and what else there is to say of it.
struct Told {
  const Texts& texts;
  const Rule& rule;
  const Finding& finding;
  double guard = 0;
  std::string_view word = {};     // of a measure that is a word, or yes and no
  std::string rests_on = {};      // "5 points"
  std::size_t struck_out = 0;     // of a count of readings: those that are struck out
  ValueOfPlaceholder names = {};  // what it is about, and {why} it is missing
};

// One sentence, without a full stop: "The flow fell 7.1 % from before to after; the limit is 5 %".
std::string sentence_of(const Told& told);

// "31 %": the probability that the true value lies beyond the limit.
std::string chance_text(const Finding& finding);

}  // namespace driftwarden
