// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "diagnostic/result.hpp"
#include "rule/practice.hpp"
#include "rule/rule.hpp"
#include "rule/sampler.hpp"
#include "rule/selector.hpp"

namespace driftwarden {

// One document's rules in one edition: a TOML file.
struct Pack {
  std::string name;
  std::string title;
  std::string edition;
  std::string note;
  std::string file;
  std::string sha256;       // of the file's bytes; whoever read them fills it in
  std::vector<Rule> rules;  // in the file's order, as samplers and practice
  std::vector<Sampler> samplers;
  std::vector<PracticeChoice> practice;
  std::vector<DescribedWord> words;
};

// Reads a pack, or finds everything that is wrong with it. Examples are read but not run.
Result<Pack> parse_pack(std::string_view text, const std::string& file);

}  // namespace driftwarden
