// SPDX-License-Identifier: MIT
#pragma once

#include <set>
#include <string>
#include <vector>

#include "verdict/screening.hpp"

namespace driftwarden {

// What a client is told of one sample.
struct LetterLine {
  std::string sample;
  Verdict verdict = Verdict::valid;  // as it stands
  std::string day;                   // of its start, in the book's zone
  std::string minutes;
  std::string volume;  // "950 ± 18"; "" where it is void or missing
  std::string volume_reference;
  std::vector<std::string> reasons;  // why it is void or open; of others what is to be known of it
};

// One page in plain words for whoever had the samples taken: what was sampled, what stands, what is void and why, what
// comes next, and how to check it. Names of rules and files are left to the evidence.
struct Letter {
  std::string title;      // of the book
  std::string about;      // "batch TF46B"
  std::string reference;  // "25 °C, 101.325 kPa"
  std::string as_of;
  std::string version;
  std::string paper;  // CSS size of the sheet, "A4"; "" leaves it to the printer
  std::size_t blanks = 0;
  std::set<std::string> days, methods, analyses;
  std::vector<LetterLine> lines;  // without the blanks

  // Those that stand, are void, or are open.
  std::vector<const LetterLine*> of(Verdict verdict) const;
};

Letter letter_of(const Screening& screening, const std::vector<Row>& samples);
std::string letter_page(const Letter& letter);

}  // namespace driftwarden
