// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>

#include "diagnostic/result.hpp"
#include "rule/rule.hpp"

namespace driftwarden {

// What is in line before the pump, and the flow it was made for. Nothing is assumed of the cut size: its exponent is
// given with where it is from, or not at all.
struct Sampler {
  std::string name;
  std::string title;
  std::optional<double> nominal_l_min;
  std::string fraction;
  std::optional<double> cut_exponent;  // n in d50 ∝ Q^-n: 50 % cut size and flow
  std::string cut_source;
  std::string pack;  // "" where the book describes it
  std::string source;
  std::optional<Standing> standing;  // how its flow is known, where that is said
  Place place;
};

// The samplers of a book's packs and of the book itself, which wins. Two packs may describe a sampler twice, but not
// differently (nominal flow, fraction, exponent).
Result<std::map<std::string, Sampler>> combine_samplers(std::span<const Sampler> of_packs,
                                                        std::span<const Sampler> of_book);

}  // namespace driftwarden
