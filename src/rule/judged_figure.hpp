// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "record/sample.hpp"
#include "rule/judgement.hpp"
#include "rule/texts.hpp"

namespace driftwarden {

// A figure of a measure as a person would write it, with its unit ("5.04 %"), never rounded to the other side of the
// limit.
std::string figure_text(const Rule& rule, double figure, double limit);

// The unit a measure is reported in, with its value.
struct Reported {
  double value = missing;
  double limit = missing;
  double margin = missing;
  std::string_view unit;
};
Reported reported(const Rule& rule, const Judgement& judgement);

// What of a judged figure may stand in a sentence: {figure}, {size}, {limit}, {says}; nothing for any other name. What
// {says} itself leaves open besides them stays so.
struct JudgedFigure {
  const Texts& texts;
  const Rule& rule;
  const Judgement& judgement;
  std::string_view word;  // of a measure that is a word, or yes and no

  std::optional<std::string> value_of(std::string_view placeholder) const;
  std::string_view statement() const;  // the measure's sentence for such a figure, nothing in its placeholders
};

}  // namespace driftwarden
