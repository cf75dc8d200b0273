// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace driftwarden {

// What a word means that stands beside a sample, for whoever has not read the manual.
struct KeyWord {
  std::string_view word;
  std::string_view meaning;
};

// The four verdicts, the best first; then the words of findings that change none.
enum class KeyOf { verdicts, verdicts_and_findings };
std::span<const KeyWord> verdict_key(KeyOf what);

// "Key. valid: the sample stands. qualified: …"
std::string verdict_key_text(KeyOf what);

}  // namespace driftwarden
