// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "rule/judged_figure.hpp"
#include "verdict/finding_sentence.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {

// A finding in one sentence, in the words of the screening's texts: what it is about, the figure, the limit.
std::string message_of(const Screening& screening, const SampleResult& result, const Finding& finding);

// What a finding's figure is of: "drift", "rsd of the pre set", "actual of the reading at readings.csv:17".
std::string measure_name(const Screening& screening, const SampleResult& result, const Finding& finding);

// Where a finding's figures were written: "readings.csv:17" and so on, without repeats.
std::vector<Place> places_of(const Screening& screening, const SampleResult& result, const Finding& finding);

// The full name of a finding's rule.
std::string rule_name(const Screening& screening, const Finding& finding);

// The ruling on a finding, for a person to read: "overruled by site hygienist, 2026-09-23T10:00-06:00: the reason
// [decisions.csv:3]".
std::string decision_text(const Book& book, const Decision& decision);
// The same without its place.
std::string ruling_text(const Book& book, const Decision& decision);

// "void", or where decisions say otherwise "void, but counts as valid by decision".
std::string standing_text(const SampleResult& result);

}  // namespace driftwarden
