// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <unordered_map>

#include "assessment/calibrator_knowledge.hpp"

namespace driftwarden {

// What a certificate was made against.
struct Standard {
  Row instrument = no_row;        // no_row: nothing is named, or nothing the book knows
  std::int32_t certificate = -1;  // the one named, else the standard's certificate in force on the day; -1: none
};

// Finds standards by what certificates call them: an instrument's name or a certificate's. Looks at the book it was
// made from, which has to outlive it.
class StandardIndex {
 public:
  explicit StandardIndex(const Book& book);
  Standard of(const Certificate& certificate, const CalibratorKnowledge& knowledge) const;

 private:
  const Book& book_;
  std::unordered_map<std::string_view, Row> instruments_;
  std::unordered_map<std::string_view, std::int32_t> certificates_;
};

}  // namespace driftwarden
