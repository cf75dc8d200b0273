// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <unordered_map>
#include <vector>

#include "book/book.hpp"
#include "rule/rule_set.hpp"
#include "verdict/finding.hpp"

namespace driftwarden {

// The decisions of a book, by the sample they are about. The book has to outlive it.
class Rulings {
 public:
  explicit Rulings(const Book& book);

  // All about one sample, in the order in which they were decided; of one moment, in that of the file.
  const std::vector<const Decision*>& about(std::string_view sample) const;

 private:
  std::unordered_map<std::string_view, std::vector<const Decision*>> by_sample_;
};

// The ruling in force on a rule among decisions about one sample: the last one; nullptr where there is none.
const Decision* ruling_on(const std::vector<const Decision*>& decisions, std::string_view rule);

// Whether a responsible person decided that the finding doesn't hold against the sample. It is told all the same.
bool is_overruled(const Finding& finding);

// Decisions that name no rule of the book's packs, and so rule on nothing: decision/unknown-rule, as remarks, for a
// pack may have been left behind, and the file only ever grows.
Diagnostics decisions_on_unknown_rules(const Book& book, const RuleSet& rules);

}  // namespace driftwarden
