// SPDX-License-Identifier: MIT
#include "rule/condition_reader.hpp"

#include <algorithm>

#include "diagnostic/suggestion.hpp"
#include "rule/stated_amount.hpp"

namespace driftwarden {

namespace {

constexpr std::string_view word_form = R"(write a word or a list of words, in quotes, or { none_of = "…" })";

class ConditionReader {
 public:
  ConditionReader(const Field& field, TomlFile& file) : field_(field), file_(file) {}

  Condition read(const toml::node& value) {
    condition_.field = field_.name;
    if (field_.kind == MeasureKind::number) {
      read_number(value);
    } else {
      read_words(value);
    }
    return condition_;
  }

 private:
  void read_number(const toml::node& value) {
    if (const toml::table* range = value.as_table()) return read_range(*range);
    const auto text = plain_text_of(value);
    if (!text) return refuse(value, R"(write an amount or a range, as in { at_least = "…", at_most = "…" })");
    condition_.at_least = condition_.at_most = amount(*text, value);
  }

  void read_range(const toml::table& range) {
    TableReader reader(range, file_, "the range of " + in_quotes(field_.name));
    condition_.at_least = end_of_range(reader, "at_least");
    condition_.at_most = end_of_range(reader, "at_most");
    reader.refuse_other_keys();
    if (range.empty()) refuse(range, "write at_least, at_most or both");
    const bool empty = condition_.at_least && condition_.at_most && *condition_.at_least > *condition_.at_most;
    if (!empty) return;
    file_.faults.push_back(error("condition/order", file_.place_of(range),
                                 "'at_least' of " + in_quotes(field_.name) + " is more than its 'at_most'"));
  }

  std::optional<double> end_of_range(TableReader& reader, std::string_view key) {
    const toml::node* node = reader.find(key);
    if (node == nullptr) return std::nullopt;
    const auto text = plain_text_of(*node);
    if (!text) refuse(*node, "write an amount");
    return text ? amount(*text, *node) : std::nullopt;
  }

  std::optional<double> amount(const std::string& text, const toml::node& node) {
    const auto stated = stated_amount(text, {field_.name, field_.dimension, {}}, file_.place_of(node));
    if (stated) return stated->amount.value;
    file_.faults.insert(file_.faults.end(), stated.faults().begin(), stated.faults().end());
    return std::nullopt;
  }

  void read_words(const toml::node& value) {
    const toml::table* excluded = value.as_table();
    if (excluded == nullptr) return read_list(value);
    TableReader reader(*excluded, file_, "what is asked of " + in_quotes(field_.name));
    const toml::node* list = reader.find("none_of");
    if (list == nullptr) return refuse(value, word_form);
    reader.refuse_other_keys();
    condition_.is_none_of = true;
    read_list(*list);
  }

  void read_list(const toml::node& value) {
    const toml::array* list = value.as_array();
    if (list == nullptr) return read_word(value);
    if (list->empty()) return refuse(value, "an empty list suits nothing");
    for (const toml::node& element : *list) read_word(element);
  }

  void read_word(const toml::node& node) {
    const auto text = plain_text_of(node);
    if (!text) return refuse(node, word_form);
    condition_.words.push_back(*text);
    if (auto fault = fault_of_word(field_, *text, file_.place_of(node))) file_.faults.push_back(*std::move(fault));
  }

  void refuse(const toml::node& node, std::string_view hint) {
    file_.faults.push_back(error("condition/wrong-form", file_.place_of(node),
                                 in_quotes(field_.name) + " can't be asked for like this", std::string(hint)));
  }

  const Field& field_;
  TomlFile& file_;
  Condition condition_;
};

std::string nearest_field(Subject of, std::string_view name) {
  std::vector<std::string_view> names;
  for (const Field& field : fields(of)) names.push_back(field.name);
  const std::string near = nearest(name, names);
  if (!near.empty()) return "did you mean '" + near + "'?";
  std::string text = "known are ";
  for (const std::string_view known : names) text += (known == names.front() ? "" : ", ") + std::string(known);
  return text;
}

}  // namespace

std::optional<Diagnostic> fault_of_word(const Field& field, std::string_view word, const Place& place) {
  const std::span<const std::string_view> known = field.kind == MeasureKind::yes_no ? yes_and_no : field.words;
  if (known.empty() && !word.empty()) return std::nullopt;
  if (std::ranges::find(known, word) != known.end()) return std::nullopt;
  return error("condition/unknown-word", place,
               in_quotes(word) + " is nothing that " + in_quotes(field.name) + " can be", did_you_mean(word, known));
}

std::vector<Condition> read_where(const toml::table& where, Subject of, TomlFile& file) {
  std::vector<Condition> conditions;
  for (const TomlEntry& entry : entries_of(where)) {
    const std::string_view name = entry.key->str();
    if (const auto field = field_named(of, name)) {
      conditions.push_back(ConditionReader(fields(of)[*field], file).read(*entry.value));
      continue;
    }
    file.faults.push_back(error("condition/unknown-field", file.place_of(*entry.key),
                                in_quotes(name) + " is no field of a " + std::string(to_text(of)),
                                nearest_field(of, name)));
  }
  return conditions;
}

}  // namespace driftwarden
