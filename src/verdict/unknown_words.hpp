// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "rule/rule_set.hpp"
#include "rule/selector.hpp"

namespace driftwarden {

struct SampleContext;
struct Texts;

// Where samples have their words.
const Column<TextId>& column_of(const SampleTable& samples, Selector of);

// Which words of a book's samples nobody describes: neither a pack nor book.toml, and no rule asks for them. Of methods
// and analyses that is asked only where somebody describes one or a rule asks for one. Both have to outlive it.
class UnknownWords {
 public:
  UnknownWords(const Book& book, const RuleSet& rules);

  const RuleSet& rules() const { return rules_; }
  // The word of a sample; 0 where none is written, or it is a blank.
  TextId written(Selector of, Row sample) const;
  bool is_unknown(Selector of, TextId word) const { return word != 0 && unknown_[static_cast<std::size_t>(of)][word]; }
  // Of one that is planned and stands nowhere in the samples.
  bool is_unknown(Selector of, const std::string& word) const;
  // "Neither a pack nor book.toml describes the sampler 'impacter'".
  static std::string message(Selector of, std::string_view word, const Texts& texts);
  // The nearest that is, or those that are.
  std::string hint(Selector of, std::string_view word) const;
  std::string near(Selector of, std::string_view word) const;  // "": nothing is near

 private:
  const Book& book_;
  const RuleSet& rules_;
  std::array<std::vector<bool>, selectors.size()> unknown_;
};

// The rules that are not held to a sample because nobody describes a word of it.
std::vector<const Rule*> rules_left_out(const SampleContext& context, Selector of);

// Every such word of the book once, with the first sample that has it: sample/unknown-sampler, -method, -analysis; and
// of the samples that are only planned: plan/unknown-sampler, -method, -analysis.
Diagnostics unknown_words(const Book& book, const UnknownWords& words);

// What stands in the finding, and among the remarks of a sample where no rule was left out.
std::string unknown_word_text(const SampleContext& context, Selector of, const Texts& texts);

}  // namespace driftwarden
