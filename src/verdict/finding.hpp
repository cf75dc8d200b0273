// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <limits>
#include <string_view>

#include "record/decision.hpp"
#include "record/instrument.hpp"
#include "record/sample.hpp"
#include "rule/judgement.hpp"

namespace driftwarden {

// What a subject comes to: the worst of its findings.
enum class Verdict : std::uint8_t { valid, qualified, undecided, void_ };

std::string_view to_text(Verdict verdict);
Verdict verdict_of(Outcome outcome);

// A rule held to one subject, and what came of it.
struct Finding {
  // Instead of a rule: the sample's own records could not be understood.
  static constexpr std::uint32_t faulty_records = UINT32_MAX;

  std::uint32_t rule = 0;  // place among the rules in force, or faulty_records
  Judgement judgement;
  // Of a rule about sets: the set of the assessment; about readings: the reading's row; about results: its place among
  // those of the sample.
  std::uint32_t about = no_row;
  double probability_beyond = missing;  // that the true value lies beyond the limit
  double expanded = missing;            // U of the figure at 95 %, in its unit; missing where none is stated
  const Decision* decision = nullptr;   // the ruling in force on it; nullptr: none
};

// The full name under which a faulty_records finding stands in reports.
inline constexpr std::string_view faulty_records_name = "book/faulty-records";

}  // namespace driftwarden
