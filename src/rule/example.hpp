// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

struct Pack;
struct Rule;

// A case a rule is tested with: what is given of a subject, and what the rule says to it.
struct Example {
  // Measure or field -> value as written. "drift.absolute" is the difference behind the ratio drift. What a `where`
  // asks for and the example doesn't give is taken to be so; a measure that isn't given is missing.
  std::map<std::string, std::string> given;
  std::string gives;  // one of example_outcomes()
  Place place;
  std::string says = {};  // the rule's own sentence as it reads then, names left in braces; "": not looked at
};

// valid, note, qualified, undecided, void, skipped: in the order of Outcome.
std::span<const std::string_view> example_outcomes();

// What is wrong with one thing given in an example of this rule, if anything.
std::optional<Diagnostic> fault_of_given(const Rule& rule, const std::string& name, const std::string& text,
                                         const Place& place);

// Every example of every rule, also of those that aren't enabled: an error for each that doesn't give what it says.
Diagnostics run_examples(const Pack& pack);

}  // namespace driftwarden
