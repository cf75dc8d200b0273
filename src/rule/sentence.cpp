// SPDX-License-Identifier: MIT
#include "rule/sentence.hpp"

#include <vector>

#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

std::vector<std::string_view> placeholders_of(Subject of) {
  std::vector<std::string_view> names;
  for (const Placeholder& one : placeholders) {
    if (has_placeholder(of, one.name)) names.push_back(one.name);
  }
  return names;
}

}  // namespace

std::string filled(std::string_view sentence, const ValueOfPlaceholder& value_of) {
  std::string text;
  while (!sentence.empty()) {
    const SentencePart part = first_part(sentence);
    const std::optional<std::string> value = part.is_placeholder && part.is_whole ? value_of(part.text) : std::nullopt;
    text += value ? *value : std::string(sentence.substr(0, sentence.size() - part.rest.size()));
    sentence = part.rest;
  }
  return text;
}

std::optional<SentenceFault> fault_of_sentence(std::string_view sentence, Subject of) {
  for (SentencePart part; !sentence.empty(); sentence = part.rest) {
    part = first_part(sentence);
    if (!part.is_whole) return SentenceFault{"a brace stands alone", "write a placeholder as in {figure}"};
    if (!part.is_placeholder || has_placeholder(of, part.text)) continue;
    return SentenceFault{"{" + std::string(part.text) + "} is no placeholder of a " + std::string(to_text(of)),
                         did_you_mean(part.text, placeholders_of(of))};
  }
  return std::nullopt;
}

}  // namespace driftwarden
