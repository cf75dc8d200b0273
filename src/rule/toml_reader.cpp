// SPDX-License-Identifier: MIT
#include "rule/toml_reader.hpp"

#include <algorithm>
#include <cmath>

#include "diagnostic/suggestion.hpp"
#include "quantity/number.hpp"

namespace driftwarden {

namespace {

bool is_blank(std::string_view text) { return text.find_first_not_of(" \t\r\n") == std::string_view::npos; }

bool is_name_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
}

std::string text_of_number(double value) {
  if (std::isnan(value)) return "nan";
  if (std::isinf(value)) return value < 0 ? "-inf" : "inf";
  return shortest(value);
}

}  // namespace

std::optional<std::string> plain_text_of(const toml::node& node) {
  if (const auto* text = node.as_string()) return text->get();
  if (const auto* whole = node.as_integer()) return std::to_string(whole->get());
  if (const auto* number = node.as_floating_point()) return text_of_number(number->get());
  if (const auto* yes = node.as_boolean()) return yes->get() ? "yes" : "no";
  return std::nullopt;
}

void check_name(const std::string& name, const Place& place, TomlFile& file) {
  if (!name.empty() && std::ranges::all_of(name, is_name_character)) return;
  file.fault("toml/not-a-name", place, in_quotes(name) + " can't be a name",
             "names are of letters a to z, digits, '-', '_' and '.'");
}

void check_cell_text(const std::string& word, const Place& place, TomlFile& file) {
  if (!has_controls(word) && !is_blank(word) && word.front() != ' ' && word.back() != ' ') return;
  file.fault("toml/not-a-word", place, in_quotes(without_controls(word)) + " can't be a cell's text",
             "write it as samples.csv does, without blanks at its ends");
}

TableReader::TableReader(const toml::table& table, TomlFile& file, std::string what)
    : table_(table), file_(file), what_(std::move(what)) {}

const toml::node* TableReader::find(std::string_view key) {
  known_.push_back(key);
  return table_.get(key);
}

const toml::node* TableReader::require(std::string_view key, std::string hint) {
  const toml::node* node = find(key);
  if (node == nullptr) fault("toml/missing-key", place(), what_ + " has no " + in_quotes(key), std::move(hint));
  return node;
}

Place TableReader::place_of_key(std::string_view key) const {
  const auto entry = table_.find(key);
  return entry == table_.end() ? place() : file_.place_of(entry->first);
}

std::string TableReader::text(std::string_view key) {
  const toml::node* node = find(key);
  return node == nullptr ? std::string() : text_of(key, *node);
}

std::string TableReader::required_text(std::string_view key, std::string hint) {
  const toml::node* node = require(key, std::move(hint));
  return node == nullptr ? std::string() : text_of(key, *node);
}

std::optional<bool> TableReader::yes_no(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  if (const auto* value = node->as_boolean()) return value->get();
  wrong_type(key, *node, "write true or false, without quotes");
  return std::nullopt;
}

std::optional<double> TableReader::number(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  if (const auto value = figure_of(*node)) return value;
  wrong_type(key, *node, "write a number, without quotes");
  return std::nullopt;
}

const toml::table* TableReader::table(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return nullptr;
  if (!node->is_table()) wrong_type(key, *node, "write a table");
  return node->as_table();
}

std::vector<const toml::table*> TableReader::tables(std::string_view key) {
  std::vector<const toml::table*> all;
  const toml::node* node = find(key);
  if (node == nullptr) return all;
  const std::string hint = "write it as [[" + std::string(key) + "]]";
  if (!node->is_array()) wrong_type(key, *node, hint);
  if (!node->is_array()) return all;
  for (const toml::node& element : *node->as_array()) {
    if (element.is_table()) all.push_back(element.as_table());
    if (!element.is_table()) wrong_type(key, element, hint);
  }
  return all;
}

std::string TableReader::word_among(std::string_view key, std::span<const std::string_view> known, bool required) {
  std::string word = required ? required_text(key, did_you_mean("", known)) : text(key);
  if (word.empty() || std::ranges::find(known, word) != known.end()) return word;
  fault("toml/unknown-word", file_.place_of(*table_.get(key)), in_quotes(key) + " can't be " + in_quotes(word),
        did_you_mean(word, known));
  return {};
}

void TableReader::fault(std::string id, Place place, std::string message, std::string hint) {
  file_.fault(std::move(id), std::move(place), std::move(message), std::move(hint));
}

void TableReader::refuse_other_keys() {
  for (const TomlEntry& entry : entries_of(table_)) {
    const std::string_view key = entry.key->str();
    if (std::ranges::find(known_, key) != known_.end()) continue;
    fault("toml/unknown-key", file_.place_of(*entry.key), in_quotes(key) + " is no key of " + what_,
          did_you_mean(key, known_));
  }
}

std::string TableReader::text_of(std::string_view key, const toml::node& node) {
  const auto* text = node.as_string();
  if (text == nullptr) {
    wrong_type(key, node, "write text in quotes");
    return {};
  }
  if (!is_blank(text->get())) return text->get();
  fault("toml/empty", file_.place_of(node), in_quotes(key) + " of " + what_ + " is empty");
  return {};
}

void TableReader::wrong_type(std::string_view key, const toml::node& node, std::string_view wanted) {
  fault("toml/wrong-type", file_.place_of(node), in_quotes(key) + " of " + what_ + " is " + std::string(type_of(node)),
        std::string(wanted));
}

}  // namespace driftwarden
