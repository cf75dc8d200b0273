// SPDX-License-Identifier: MIT
#include "verdict/verdict_key.hpp"

#include <array>

#include "verdict/sample_judge.hpp"

namespace driftwarden {
namespace {

constexpr std::array key{
    KeyWord{"valid", "the sample stands"},
    KeyWord{"qualified", "it stands; pass the reason on with the result"},
    KeyWord{"undecided", "a figure that a rule needs is missing or can't be read; report nothing until it is there"},
    KeyWord{"void", "give no concentration from it; list it as void"},
    KeyWord{"near", "within the limit, but its uncertainty leaves a chance of 2.5 % or more that it is beyond"},
    KeyWord{"note, remark", "to be known; no verdict changes by it"},
};
constexpr std::size_t verdicts = 4;
static_assert(near_miss_probability == 0.025, "the key says 2.5 %");

}  // namespace

std::span<const KeyWord> verdict_key(KeyOf what) {
  return std::span(key).first(what == KeyOf::verdicts ? verdicts : key.size());
}

std::string verdict_key_text(KeyOf what) {
  std::string text = "Key. The gravest finding gives the verdict; a decision may overrule it.";
  for (const KeyWord& each : verdict_key(what))
    text += " " + std::string(each.word) + ": " + std::string(each.meaning) + ".";
  return text;
}

}  // namespace driftwarden
