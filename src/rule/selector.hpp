// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "rule/rule.hpp"

namespace driftwarden {

// A column of samples.csv whose words choose rules. A word that nobody describes looks like one that is misspelt, and
// the rules it was meant to choose are then never held to the sample.
enum class Selector : std::uint8_t { sampler, method, analysis };
inline constexpr std::array<Selector, 3> selectors{Selector::sampler, Selector::method, Selector::analysis};

template <>
std::span<const std::string_view> words<Selector>();
std::string_view to_text(Selector selector);

// What a method or an analysis states of a sample's mass and of the blanks of a set.
enum class MassFactKind : std::uint8_t {
  detection,       // the least mass of a sample that is told from nothing
  quantification,  // the least mass that is stated as a figure
  loading,         // the most of all dust that a medium may hold
  blanks           // so many blanks are enough for any set
};
inline constexpr std::array<MassFactKind, 4> mass_fact_kinds{MassFactKind::detection, MassFactKind::quantification,
                                                             MassFactKind::loading, MassFactKind::blanks};
template <>
std::span<const std::string_view> words<MassFactKind>();

struct MassFact {
  double value = 0;     // mg; of blanks a number
  std::string written;  // "0.1 mg"
  std::string source;
  Standing standing = Standing::read;
  std::string pack;  // "" where the book states it
  Place place;
};

struct MassFacts {
  std::array<std::optional<MassFact>, mass_fact_kinds.size()> facts;

  std::optional<MassFact>& of(MassFactKind kind) { return facts[static_cast<std::size_t>(kind)]; }
  const std::optional<MassFact>& of(MassFactKind kind) const { return facts[static_cast<std::size_t>(kind)]; }
};

// A word that a pack or book.toml describes: [method.…], [analysis.…]. Samplers have a description of their own.
struct DescribedWord {
  Selector of = Selector::method;
  std::string word;
  std::string title;
  std::string source;
  Place place;
  MassFacts facts = {};
};

// The words of each selector that are described or that a rule asks for, in the order of `selectors`.
using KnownWords = std::array<std::set<std::string>, selectors.size()>;

// Whether a condition asks for the word, or for what is only known of a sampler by its name.
bool asks_for(const Condition& condition, Selector selector);

// Whether a rule asks for the word in its where, or holds a flow to the nominal flow that a sampler has by its name.
bool leans_on(const Rule& rule, Selector selector);

// What the program itself asks of every book: "book/unknown-sampler" and the like, one for each selector. They are in
// force where some other rule leans on the word.
inline constexpr std::string_view own_pack = "book";
std::string own_rule_name(Selector selector);
std::vector<Rule> own_rules();

}  // namespace driftwarden
