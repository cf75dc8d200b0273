// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostic/place.hpp"
#include "rule/condition.hpp"
#include "rule/example.hpp"
#include "rule/measure.hpp"
#include "rule/stated_limit.hpp"
#include "rule/words.hpp"

namespace driftwarden {

// The consequence where the limit is not kept.
enum class Otherwise : std::uint8_t { note, qualify, void_ };
// The consequence where the measure is missing.
enum class Absent : std::uint8_t { undecided, void_, qualify, skip };
// How a limit is known. What is only remembered ships switched off.
enum class Standing : std::uint8_t { read, common_practice, house, memory };
// What a difference is relative to. by_practice: drift by the practice `drift_base`, a deviation by its definition.
enum class Base : std::uint8_t { by_practice, pre, post, mean, nominal };

template <>
std::span<const std::string_view> words<Otherwise>();
template <>
std::span<const std::string_view> words<Absent>();
template <>
std::span<const std::string_view> words<Standing>();
template <>
std::span<const std::string_view> words<Base>();
std::string_view to_text(Otherwise otherwise);
std::string_view to_text(Absent absent);
std::string_view to_text(Standing standing);
std::string_view to_text(Base base);

// One measure held to one limit, with its consequence and its source.
struct Rule {
  std::string pack;
  std::string edition;
  std::string id;
  Subject of = Subject::sample;
  std::vector<Condition> where;  // all must be so
  std::size_t measure = 0;       // in measures(of)
  Base base = Base::by_practice;
  Limit limit;
  Otherwise otherwise = Otherwise::void_;
  Absent absent = Absent::undecided;
  std::string reason;
  std::string source;
  std::string after;  // the clause that the rule follows where its own step is ours: standing house
  std::string note;
  std::string sentence;  // its own, for a figure that does not keep the limit; "": the measure's
  Standing standing = Standing::read;
  bool enabled = true;
  Place place;
  std::vector<Example> examples;

  // What the book changed, as it was before.
  struct Overridden {
    std::string limit_before;
    std::string otherwise_before;
    std::string reason;
    Place place;
    bool enabled_before = true;
  };
  std::optional<Overridden> overridden;

  std::string full_name() const;  // pack/id
};

const Measure& measure_of(const Rule& rule);

// Whether a rule holds a flow to how far it is from the nominal one.
bool is_from_nominal(const Rule& rule);

// How the limit is known: "read"; "house, after 30 CFR 70.205(b)(2)".
std::string known_by_text(const Rule& rule);

}  // namespace driftwarden
