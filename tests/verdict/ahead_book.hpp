// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "support/book_text.hpp"
#include "verdict/volume_ahead.hpp"

namespace driftwarden {

// input: rules and facts as NMAM 0600 has them (its pack), of a method "M" and a sampler of 2 L/min.

inline DescribedWord method_of(std::initializer_list<std::pair<MassFactKind, double>> facts) {
  DescribedWord word{Selector::method, "M", "T", "S", {"own.toml", 1, 1}, {}};
  for (const auto& [kind, value] : facts)
    word.facts.of(kind) = MassFact{value, "as stated", "A source", Standing::read, "own", {"own.toml", 2, 1}};
  return word;
}

inline RulesText ahead_rules() {
  return {.rules = {{Subject::sample, "volume", "at_least", {"20 L"}, Otherwise::qualify},
                    {Subject::sample, "volume", "at_most", {"400 L"}, Otherwise::note},
                    {Subject::sample, "minutes", "between", {"45 min", "8 h"}, Otherwise::qualify},
                    {Subject::sample, "drift", "within", {"5 %"}},
                    {Subject::batch, "blanks", "at_least", {"2"}, Otherwise::qualify},
                    {Subject::batch, "blank.share", "at_least", {"20 %"}, Otherwise::note}},
          .samplers = {sampler("cowl", 2.0)},
          .words = {method_of(
              {{MassFactKind::quantification, 0.1}, {MassFactKind::loading, 2}, {MassFactKind::blanks, 10}})}};
}

inline VolumeAsked asked_for(double target_mg_m3, double expected_mg_m3, double flow_l_min = 2) {
  VolumeAsked asked;
  asked.sample.method = "M";
  asked.sample.sampler = "cowl";
  asked.sample.nominal_l_min = flow_l_min;
  asked.target_mg_m3 = target_mg_m3;
  asked.expected_mg_m3 = expected_mg_m3;
  return asked;
}

inline VolumeAhead volume_of(const JudgedBook& book, const VolumeAsked& asked) {
  return volume_ahead(book.screening(), asked, rules_ahead(book.screening(), asked.sample, no_row));
}

}  // namespace driftwarden
