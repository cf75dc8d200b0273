// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <stdexcept>

#include "rule/practice.hpp"

namespace driftwarden {

// A choice by its words, as the book or a pack would write them.
inline PracticeChoice practice(std::string_view key, std::string_view word,
                               std::string reason = "The client asked for it.", std::string pack = "",
                               Place place = {"book.toml", 3, 1}) {
  const auto of = std::ranges::find(practice_keys(), key, &PracticeKey::key);
  if (of == practice_keys().end()) throw std::runtime_error("no practice: " + std::string(key));
  const auto value = std::ranges::find(of->values, word);
  if (value == of->values.end()) throw std::runtime_error("no value of it: " + std::string(word));
  return {&*of, static_cast<std::size_t>(value - of->values.begin()), std::move(reason), std::move(pack),
          std::move(place)};
}

}  // namespace driftwarden
