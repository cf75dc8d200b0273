// SPDX-License-Identifier: MIT
#include "rule/stated_limit.hpp"

#include <algorithm>
#include <cassert>
#include <limits>

#include "diagnostic/suggestion.hpp"
#include "rule/stated_amount.hpp"

namespace driftwarden {

namespace {

using enum Limit::Form;

constexpr std::string_view form_keys[] = {"within",    "strictly_within", "at_most", "less_than", "at_least",
                                          "more_than", "between",         "is",      "one_of"};
constexpr std::string_view form_words[] = {"within",    "strictly within", "at most", "less than", "at least",
                                           "more than", "between",         "is",      "one of"};
constexpr double no_end = std::numeric_limits<double>::infinity();

bool is_plus_minus(Limit::Form form) { return form == within || form == strictly_within; }

// ± makes sense around 0 only: of differences.
bool may_be_plus_minus(const Measure& measure) {
  return measure.is_a_difference || measure.dimension == Dimension::ratio ||
         measure.dimension == Dimension::temperature_difference;
}

std::string text_of(const WrittenLimit& written) {
  const std::string_view joint = written.form == between ? " and " : ", ";
  std::string text(to_text(written.form));
  for (std::size_t i = 0; i < written.values.size(); ++i) {
    text += i == 0 ? " " : joint;
    text += written.values[i].text;
  }
  if (written.or_within) text += " or " + written.or_within->text;
  return text;
}

std::optional<Diagnostic> fault_of_form(const WrittenLimit& written, const Measure& measure) {
  const std::string form = in_quotes(form_keys[static_cast<std::size_t>(written.form)]);
  const std::string name(measure.name);
  const auto fault = [&](std::string_view why, std::string_view hint) {
    return error("limit/wrong-form", written.place, form + " does not fit " + name + ", " + std::string(why),
                 std::string(hint));
  };
  const bool is_number = measure.kind == MeasureKind::number;
  if (!is_number && !is_of_words(written.form)) {
    return fault(measure.kind == MeasureKind::word ? "which is a word" : "which is yes or no", "use is or one_of");
  }
  if (is_number && is_of_words(written.form)) return fault("which is a number", "use between, at_most or at_least");
  if (is_number && is_plus_minus(written.form) && !may_be_plus_minus(measure)) {
    return fault("which is no difference", "use between, at_most or at_least");
  }
  return std::nullopt;
}

Result<Limit> limit_of_words(const WrittenLimit& written, const Measure& measure) {
  const std::span<const std::string_view> known = measure.kind == MeasureKind::yes_no ? yes_and_no : measure.words;
  Limit limit;
  Diagnostics faults;
  for (const WrittenValue& value : written.values) {
    limit.words.push_back(value.text);
    if (std::ranges::find(known, value.text) != known.end()) continue;
    faults.push_back(error("limit/unknown-word", value.place,
                           in_quotes(value.text) + " is nothing that " + std::string(measure.name) + " can be",
                           did_you_mean(value.text, known)));
  }
  if (!faults.empty()) return faults;
  return limit;
}

Result<std::vector<StatedAmount>> amounts_of(const WrittenLimit& written, const Measure& measure) {
  std::vector<StatedAmount> amounts;
  Diagnostics faults;
  for (const WrittenValue& value : written.values) {
    Result<StatedAmount> amount =
        stated_amount(value.text, {measure.name, measure.dimension, measure.absolute}, value.place);
    if (amount) amounts.push_back(*amount);
    faults.insert(faults.end(), amount.faults().begin(), amount.faults().end());
  }
  if (!faults.empty()) return faults;
  return amounts;
}

std::optional<Diagnostic> fault_of_amounts(const WrittenLimit& written, const std::vector<StatedAmount>& amounts) {
  const std::string first = in_quotes(written.values.front().text);
  if (is_plus_minus(written.form) && amounts.front().amount.value < 0) {
    return error("limit/negative", written.values.front().place, first + " is negative",
                 "a limit to both sides is written without a sign");
  }
  if (written.form != between) return std::nullopt;
  const std::string second = in_quotes(written.values.back().text);
  if (amounts.front().is_absolute != amounts.back().is_absolute) {
    return error("limit/mixed", written.place, first + " and " + second + " are not of one kind",
                 "write both relative or both absolute");
  }
  if (amounts.front().amount.value > amounts.back().amount.value) {
    return error("limit/order", written.place, first + " is more than " + second, "write the smaller one first");
  }
  return std::nullopt;
}

void set_ends(Limit& limit, Limit::Form form, double first, double last) {
  const bool upper_only = form == at_most || form == less_than;
  const bool lower_only = form == at_least || form == more_than;
  limit.low = upper_only ? -no_end : (is_plus_minus(form) ? -first : first);
  limit.high = lower_only ? no_end : last;
}

// Of a limit of which either half will do: one relative and one absolute, or they would be one limit.
Result<double> alternative_of(const WrittenValue& written, bool is_absolute, const Measure& measure) {
  const Result<StatedAmount> amount =
      stated_amount(written.text, {measure.name, measure.dimension, measure.absolute}, written.place);
  if (!amount) return amount.faults();
  if (amount->is_absolute == is_absolute) {
    return error("limit/no-alternative", written.place, in_quotes(written.text) + " is of the same kind as the limit",
                 "write one relative and one absolute, as in within = \"5 %\" and or_within = \"0.1 L/min\"");
  }
  if (amount->amount.value < 0) {
    return error("limit/negative", written.place, in_quotes(written.text) + " is negative",
                 "a limit to both sides is written without a sign");
  }
  return amount->amount.value;
}

Result<Limit> limit_of_amounts(const WrittenLimit& written, const Measure& measure) {
  const Result<std::vector<StatedAmount>> amounts = amounts_of(written, measure);
  if (!amounts) return amounts.faults();
  if (auto fault = fault_of_amounts(written, *amounts)) return *fault;
  Limit limit;
  set_ends(limit, written.form, amounts->front().amount.value, amounts->back().amount.value);
  limit.is_absolute = amounts->front().is_absolute;
  limit.unit = amounts->front().amount.written_unit;
  if (!written.or_within) return limit;
  const Result<double> alternative = alternative_of(*written.or_within, limit.is_absolute, measure);
  if (!alternative) return alternative.faults();
  limit.or_within = *alternative;
  return limit;
}

}  // namespace

template <>
std::span<const std::string_view> words<Limit::Form>() {
  return form_keys;
}

std::string_view to_text(Limit::Form form) { return form_words[static_cast<std::size_t>(form)]; }

Result<Limit> limit_of(const WrittenLimit& written, const Measure& measure) {
  assert(!written.values.empty() && (written.form != between || written.values.size() == 2));
  if (auto fault = fault_of_form(written, measure)) return *fault;
  Result<Limit> limit =
      is_of_words(written.form) ? limit_of_words(written, measure) : limit_of_amounts(written, measure);
  if (!limit) return limit;
  limit->form = written.form;
  limit->text = text_of(written);
  for (const WrittenValue& value : written.values) limit->values.push_back(value.text);
  if (written.or_within) limit->or_value = written.or_within->text;
  return limit;
}

}  // namespace driftwarden
