// SPDX-License-Identifier: MIT
#include "rule/limit_reader.hpp"

#include <algorithm>

namespace driftwarden {

namespace {

using Form = Limit::Form;

struct LimitKey {
  Form form;
  Place place;
  const toml::node* value;
};

std::vector<LimitKey> limit_keys(TableReader& reader) {
  std::vector<LimitKey> keys;
  const std::span<const std::string_view> forms = words<Form>();
  for (std::size_t i = 0; i < forms.size(); ++i) {
    const toml::node* value = reader.find(forms[i]);
    if (value != nullptr) keys.push_back({static_cast<Form>(i), reader.place_of_key(forms[i]), value});
  }
  std::ranges::sort(keys, {}, &LimitKey::place);
  return keys;
}

void refuse_second_limits(TableReader& reader, const std::vector<LimitKey>& keys) {
  for (std::size_t i = 1; i < keys.size(); ++i) {
    reader.fault("rule/two-limits", keys[i].place,
                 reader.what() + " has a second limit, " + in_quotes(word_of(keys[i].form)),
                 "its limit " + in_quotes(word_of(keys[0].form)) + " is on line " + std::to_string(keys[0].place.line) +
                     "; write two rules");
  }
}

std::string_view what_to_write(Form form) {
  if (form == Form::between) return R"(write two amounts, as in ["1.5 L/min", "2.5 L/min"])";
  if (form == Form::one_of) return R"(write a list of words, as in ["centre", "top"])";
  return "write an amount or a word in quotes";
}

bool takes_a_list(Form form) { return form == Form::between || form == Form::one_of; }

// The values of a limit as they were written; empty where they don't fit its form.
std::vector<WrittenValue> values_of(const LimitKey& key, const TomlFile& file) {
  std::vector<WrittenValue> values;
  const auto add = [&](const toml::node& node) {
    if (auto text = plain_text_of(node)) values.push_back({*std::move(text), file.place_of(node)});
  };
  if (!takes_a_list(key.form)) add(*key.value);
  const toml::array* list = key.value->as_array();
  if (list == nullptr || !takes_a_list(key.form)) return values;
  for (const toml::node& element : *list) add(element);
  const bool complete = values.size() == list->size() && (key.form != Form::between || values.size() == 2);
  return complete ? values : std::vector<WrittenValue>();
}

// What `or_within` says beside a limit to both sides.
std::optional<WrittenValue> alternative_to(Form form, const toml::node* node, TableReader& reader,
                                           const TomlFile& file) {
  if (node == nullptr) return std::nullopt;
  const auto text = plain_text_of(*node);
  if (text && (form == Form::within || form == Form::strictly_within)) {
    return WrittenValue{*text, file.place_of(*node)};
  }
  reader.fault("limit/no-alternative", file.place_of(*node),
               "'or_within' of " + reader.what() + " is no alternative to " + in_quotes(word_of(form)),
               "write it as an amount beside within or strictly_within");
  return std::nullopt;
}

}  // namespace

FoundLimit read_limit(TableReader& reader, TomlFile& file) {
  const std::vector<LimitKey> keys = limit_keys(reader);
  const toml::node* alternative = reader.find("or_within");
  if (keys.empty()) return {};
  refuse_second_limits(reader, keys);
  const LimitKey& key = keys.front();
  std::vector<WrittenValue> values = values_of(key, file);
  if (!values.empty()) {
    return {true,
            WrittenLimit{key.form, std::move(values), key.place, alternative_to(key.form, alternative, reader, file)}};
  }
  reader.fault("toml/wrong-type", file.place_of(*key.value),
               in_quotes(word_of(key.form)) + " of " + reader.what() + " is not written as it should be",
               std::string(what_to_write(key.form)));
  return {true, std::nullopt};
}

}  // namespace driftwarden
