// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "diagnostic/result.hpp"
#include "rule/override.hpp"
#include "rule/practice.hpp"
#include "rule/sampler.hpp"
#include "rule/selector.hpp"

namespace driftwarden {

// What a book says about rules beside naming its packs.
struct HouseRules {
  std::vector<Override> overrides;
  std::vector<PracticeChoice> practice;
  std::vector<Sampler> samplers;
  std::vector<DescribedWord> words;
};

// Reads [[override]], [practice], [sampler.…], [method.…] and [analysis.…] of a book.toml and nothing else of it.
Result<HouseRules> parse_house_rules(std::string_view book_toml_text, const std::string& file);

}  // namespace driftwarden
