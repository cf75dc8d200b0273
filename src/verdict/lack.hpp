// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

#include "rule/rule.hpp"
#include "rule/texts.hpp"
#include "verdict/measured.hpp"

namespace driftwarden {

// Why a figure of a sample is missing: the sentence, and the set that lacks something where it is for a set.
struct Lack {
  std::string_view sentence;
  const ReadingSet* set = nullptr;
};

// Of the measure of a rule, whose figure is missing.
Lack why_missing(const LackTexts& texts, const SampleContext& context, const Rule& rule);

}  // namespace driftwarden
