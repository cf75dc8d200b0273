// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "driftwarden/verdict/screening.hpp"

namespace driftwarden {

// A figure of a measure as a person would write it, with its unit ("5.04 %"), never rounded to the other side of the
// limit.
std::string figure_text(const Rule& rule, double figure, double limit);

// A finding in one sentence: the figure, the limit, what follows.
std::string message_of(const Screening& screening, const SampleResult& result, const Finding& finding);

// The same of any subject's figure, as "drift 5.04 %" tells it.
std::string figure_message(const Screening& screening, const Rule& rule, const Finding& finding,
                           const std::string& figure);

// What a finding's figure is of: "drift", "rsd of the pre set", "actual of the reading at readings.csv:17".
std::string measure_name(const Screening& screening, const SampleResult& result, const Finding& finding);

// Where a finding's figures were written: "readings.csv:17" and so on, without repeats.
std::vector<Place> places_of(const Screening& screening, const SampleResult& result, const Finding& finding);

// The full name of a finding's rule.
std::string rule_name(const Screening& screening, const Finding& finding);

// "31 %": the probability that the true value lies beyond the limit.
std::string chance_text(const Finding& finding);

// The ruling on a finding, for a person to read: "overruled by site hygienist, 2026-09-23T10:00-06:00: the reason
// [decisions.csv:3]".
std::string decision_text(const Book& book, const Decision& decision);
// The same without its place.
std::string ruling_text(const Book& book, const Decision& decision);

// "void", or where decisions say otherwise "void, valid by decision".
std::string standing_text(const SampleResult& result);

// The unit a measure is reported in, with its value.
struct Reported {
  double value = missing;
  double limit = missing;
  double margin = missing;
  std::string_view unit;
};
Reported reported(const Rule& rule, const Judgement& judgement);

}  // namespace driftwarden
