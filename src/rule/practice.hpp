// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>

#include "assessment/practice.hpp"
#include "diagnostic/result.hpp"

namespace driftwarden {

// A point on which methods differ: how a figure is formed, not what limits it.
struct PracticeKey {
  std::string_view key;
  std::span<const std::string_view> values;  // in the order of its enumeration; the first is taken where nobody chooses
  std::string_view meaning;
  void (*act)(AssessmentPractice& practice, std::size_t value);  // where it acts
  bool is_of_results = false;  // of the laboratory: where nobody chooses, no list of practices has it
};

// flow_for_volume, field_sets, drift_base, rotameter_correction, bubble_humidity, blank_correction, control_correction,
// concentration_volume.
std::span<const PracticeKey> practice_keys();

struct PracticeChoice {
  const PracticeKey* of = nullptr;
  std::size_t value = 0;         // among its values
  std::string source_or_reason;  // a pack's source, the book's reason
  std::string pack;              // "" where the book chose, or nobody
  Place place;                   // no file where nobody chose

  std::string key() const { return std::string(of->key); }
  std::string word() const { return std::string(of->values[value]); }
};

// A choice for each key, those of results only where somebody made one. The book's wins; two packs that disagree where
// the book doesn't settle it are an error.
Result<std::map<std::string, PracticeChoice>> choose_practice(std::span<const PracticeChoice> of_packs,
                                                              std::span<const PracticeChoice> of_book);

// The choices as assessing needs them.
AssessmentPractice practice_of(const std::map<std::string, PracticeChoice>& chosen);

}  // namespace driftwarden
