// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/units.hpp"
#include "rule/measure.hpp"

namespace driftwarden {

// A field of a subject that a rule's `where` may ask for: what was written, not what was computed.
struct Field {
  std::string_view name;
  MeasureKind kind = MeasureKind::word;
  Dimension dimension = Dimension::count;   // of a number
  std::span<const std::string_view> words;  // the words a word may be; none: any
  std::string_view definition;
};

std::span<const Field> fields(Subject subject);
std::optional<std::size_t> field_named(Subject subject, std::string_view name);

// One entry of a rule's `where`: a field that has to be one of some words, or none of them, or in a range (inside unit,
// ends included).
struct Condition {
  std::string field;
  std::vector<std::string> words;
  std::optional<double> at_least;
  std::optional<double> at_most;
  bool is_none_of = false;  // of the words
};

// What a subject has in a field. Nothing known: NaN and "".
struct FieldValue {
  double figure = std::numeric_limits<double>::quiet_NaN();  // inside unit
  std::string_view word = {};                                // yes_no: "yes" or "no"
};

// unknown: a range is asked for and there is no figure; then nobody can say whether the rule applies, and it is judged
// as if its measure were missing. A word that isn't there is none of the words: it meets `none_of`, and nothing else.
enum class Applies : std::uint8_t { yes, no, unknown };

Applies applies(const Condition& condition, const FieldValue& value);

}  // namespace driftwarden
