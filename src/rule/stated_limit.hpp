// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostic/result.hpp"
#include "quantity/units.hpp"
#include "rule/measure.hpp"
#include "rule/words.hpp"

namespace driftwarden {

// A rule's limit. within, at_most, at_least and between include their ends; strictly_within, less_than and more_than
// don't.
struct Limit {
  enum class Form : std::uint8_t {
    within,           // ±
    strictly_within,  // ±
    at_most,
    less_than,
    at_least,
    more_than,
    between,
    is,
    one_of
  };
  Form form = Form::within;
  double low = 0;                  // inside unit; within: -high; nothing below: -infinity
  double high = 0;                 // inside unit; nothing above: infinity
  std::vector<std::string> words;  // is, one_of; of yes_no: "yes", "no"
  bool is_absolute = false;        // a ratio's limit written in the unit of the difference behind it, as in 0.1 L/min
  Unit unit;                       // as written
  // Of the other kind than the limit itself (absolute beside relative): a figure that is within either keeps the limit.
  double or_within = std::numeric_limits<double>::quiet_NaN();
  std::string text;                 // as written: "within 5 %", "within 5 % or 0.1 L/min"
  std::vector<std::string> values;  // the amounts or words alone: "5 %"
  std::string or_value;             // "0.1 L/min"
};

// The forms as the keys of a pack.
template <>
std::span<const std::string_view> words<Limit::Form>();
std::string_view to_text(Limit::Form form);
inline bool has_alternative(const Limit& limit) { return limit.or_within >= 0; }
// Whether what lies on the limit keeps it.
inline bool includes_its_ends(Limit::Form form) {
  return form != Limit::Form::strictly_within && form != Limit::Form::less_than && form != Limit::Form::more_than;
}
inline bool is_of_words(Limit::Form form) { return form == Limit::Form::is || form == Limit::Form::one_of; }

struct WrittenValue {
  std::string text;  // a number or yes/no without quotes as its text
  Place place;
};

// A limit as it was written, before it is known what it limits.
struct WrittenLimit {
  Limit::Form form = Limit::Form::within;
  std::vector<WrittenValue> values;  // two of between, any number of one_of, else one
  Place place;
  std::optional<WrittenValue> or_within = std::nullopt;  // beside within or strictly_within
};

// The meaning of a written limit for a measure, or what is wrong with it.
Result<Limit> limit_of(const WrittenLimit& written, const Measure& measure);

}  // namespace driftwarden
