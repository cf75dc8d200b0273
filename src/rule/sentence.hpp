// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "rule/measure.hpp"

namespace driftwarden {

constexpr unsigned bit(Subject subject) { return 1U << static_cast<unsigned>(subject); }

// What a sentence may leave open, as in "The flow fell {size} from before to after".
struct Placeholder {
  static constexpr unsigned of_all = ~0U;
  static constexpr unsigned of_samples =
      bit(Subject::sample) | bit(Subject::set) | bit(Subject::reading) | bit(Subject::result);

  std::string_view name;
  unsigned subjects;  // those that have it
  std::string_view meaning;
};
inline constexpr std::array placeholders{
    Placeholder{"figure", Placeholder::of_all, "the figure with sign and unit, or the word"},
    Placeholder{"size", Placeholder::of_all, "the figure without its sign"},
    Placeholder{"limit", Placeholder::of_all, "the limit as the pack writes it"},
    Placeholder{"says", Placeholder::of_all, "what the measure says by itself"},
    Placeholder{"sample", Placeholder::of_samples, "the sample"},
    Placeholder{"sampler", Placeholder::of_samples, "its sampler"},
    Placeholder{"calibrator", Placeholder::of_samples | bit(Subject::calibrator),
                "the calibrator, or those of the readings that the figure comes from"},
    Placeholder{"pump", Placeholder::of_samples | bit(Subject::pump), "the pump"},
    Placeholder{"batch", Placeholder::of_samples | bit(Subject::batch), "the batch"},
    Placeholder{"set", bit(Subject::set) | bit(Subject::reading),
                "when it was read: 'before sampling', 'during sampling' or 'after sampling'"},
    Placeholder{"reading", bit(Subject::reading), "where the reading is written down: 'readings.csv:17'"},
    Placeholder{"analyte", bit(Subject::result), "what was looked for"},
};

constexpr bool has_placeholder(Subject subject, std::string_view name) {
  for (const Placeholder& one : placeholders) {
    if (one.name == name) return (one.subjects & bit(subject)) != 0;
  }
  return false;
}

// A part of a sentence: text, or the name of a placeholder. The rest follows.
struct SentencePart {
  std::string_view text;
  bool is_placeholder = false;
  bool is_whole = true;  // no brace is left open, or closes nothing
  std::string_view rest;
};
constexpr SentencePart first_part(std::string_view sentence) {
  const std::size_t brace = sentence.find_first_of("{}");
  if (brace != 0) {
    const std::size_t end = brace == std::string_view::npos ? sentence.size() : brace;
    return {sentence.substr(0, end), false, true, sentence.substr(end)};
  }
  const std::size_t end = sentence.find_first_of("{}", 1);
  if (sentence[0] == '}' || end == std::string_view::npos || sentence[end] == '{') return {sentence, true, false, {}};
  return {sentence.substr(1, end - 1), true, true, sentence.substr(end + 1)};
}

// The sentence with each placeholder's value in its place; one without a value stays as it is written.
using ValueOfPlaceholder = std::function<std::optional<std::string>(std::string_view name)>;
std::string filled(std::string_view sentence, const ValueOfPlaceholder& value_of);

// What is wrong with a rule's own sentence about such a subject, and how to mend it; nothing where it can be used.
struct SentenceFault {
  std::string message;
  std::string hint;
};
std::optional<SentenceFault> fault_of_sentence(std::string_view sentence, Subject of);

}  // namespace driftwarden
