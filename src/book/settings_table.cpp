// SPDX-License-Identifier: MIT
#include "book/settings_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

bool is_blank(std::string_view text) { return text.find_first_not_of(" \t") == std::string_view::npos; }

struct KeyInTable {
  std::string_view table;
  std::string_view key;
};
// Keys that are easily written under the wrong heading.
constexpr std::array<KeyInTable, 9> homes{{{"", "title"},
                                           {"", "time_zone"},
                                           {"", "decimal"},
                                           {"", "dates"},
                                           {"reference", "temperature"},
                                           {"reference", "pressure"},
                                           {"site", "altitude"},
                                           {"rules", "packs"},
                                           {"decision", "guard"}}};

}  // namespace

SettingsTable::SettingsTable(const toml::table& table, std::string name, TomlFile& file)
    : table_(table), name_(std::move(name)), file_(file) {}

Place SettingsTable::place_of(std::string_view key) const {
  const toml::node* node = table_.get(key);
  return node == nullptr ? place() : file_.place_of(*node);
}

std::string SettingsTable::path_of(std::string_view key) const {
  return name_.empty() ? std::string(key) : name_ + "." + std::string(key);
}

std::string SettingsTable::called(std::string_view key) const { return in_quotes(path_of(key)); }

const toml::node* SettingsTable::find(std::string_view key) {
  known_.push_back(key);
  return table_.get(key);
}

std::optional<SaidText> SettingsTable::text(std::string_view key) {
  const toml::node* node = find(key);
  return node == nullptr ? std::nullopt : text_of(key, *node);
}

std::optional<SaidText> SettingsTable::text_of(std::string_view key, const toml::node& node) {
  const Place place = file_.place_of(node);
  const auto* text = node.as_string();
  if (text == nullptr) {
    wrong_type(key, node, "write text in quotes");
  } else if (is_blank(text->get())) {
    file_.fault("settings/empty", place, called(key) + " is empty", "write its text, or leave the line out");
  } else if (has_controls(text->get())) {
    file_.fault("settings/control-character", place, called(key) + " holds a control character",
                "write plain text on one line");
  } else {
    return SaidText{text->get(), place};
  }
  return std::nullopt;
}

std::optional<std::vector<SaidText>> SettingsTable::texts(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  const auto* list = node->as_array();
  if (list == nullptr) return wrong_type(key, *node, "write a list of texts, as [\"…\", \"…\"]"), std::nullopt;
  std::vector<SaidText> texts;
  for (const toml::node& element : *list) {
    if (auto text = text_of(key, element)) texts.push_back(*std::move(text));
  }
  return texts;
}

bool SettingsTable::is_within(double value, std::string_view key, const SaidRange& range) {
  if (value >= range.low && value <= range.high) return true;
  file_.fault("settings/out-of-range", place_of(key), called(key) + " is out of range",
              "write " + std::string(range.in_words));
  return false;
}

std::optional<double> SettingsTable::number(std::string_view key, const SaidRange& range) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  const auto value = figure_of(*node);
  if (!value) return wrong_type(key, *node, "write a number without quotes"), std::nullopt;
  return is_within(*value, key, range) ? value : std::nullopt;
}

std::optional<int> SettingsTable::whole_number(std::string_view key, const SaidRange& range) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  const auto value = node->value_exact<std::int64_t>();
  if (!value) return wrong_type(key, *node, "write a whole number without quotes"), std::nullopt;
  if (!is_within(static_cast<double>(*value), key, range)) return std::nullopt;
  return static_cast<int>(*value);
}

std::optional<double> SettingsTable::amount(std::string_view key, Dimension dimension, const SaidRange& range,
                                            std::string_view example) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  const auto amount =
      amount_of_node(*node, key, dimension, "write it with its unit, as \"" + std::string(example) + "\"");
  return amount && is_within(*amount, key, range) ? amount : std::nullopt;
}

std::optional<double> SettingsTable::amount_of_node(const toml::node& node, std::string_view key, Dimension dimension,
                                                    const std::string& hint) {
  if (dimension == Dimension::count && figure_of(node)) return figure_of(node);
  if (!node.is_string() || dimension == Dimension::count) return wrong_type(key, node, hint), std::nullopt;
  const auto text = text_of(key, node);
  if (!text) return std::nullopt;
  const auto amount = amount_of(text->text, dimension);
  if (amount) return amount->value;
  file_.fault("settings/not-an-amount", text->place, called(key) + " can't be " + in_quotes(text->text), hint);
  return std::nullopt;
}

std::optional<std::pair<double, double>> SettingsTable::span(std::string_view key, Dimension dimension,
                                                             const SaidRange& range, std::string_view example) {
  const toml::node* node = find(key);
  if (node == nullptr) return std::nullopt;
  const std::string hint = "write it as " + std::string(example);
  const toml::array* ends = node->as_array();
  if (ends != nullptr && ends->size() != 2) return wrong_type(key, *node, hint), std::nullopt;
  const auto lower = amount_of_node(ends == nullptr ? *node : *ends->get(0), key, dimension, hint);
  const auto upper = ends == nullptr ? lower : amount_of_node(*ends->get(1), key, dimension, hint);
  if (!lower || !upper || !is_within(*lower, key, range)) return std::nullopt;
  // The second from the first on.
  return is_within(*upper, key, {*lower, range.high, range.in_words}) ? std::optional(std::pair{*lower, *upper})
                                                                      : std::nullopt;
}

const toml::table* SettingsTable::table(std::string_view key) {
  const toml::node* node = find(key);
  if (node == nullptr) return nullptr;
  if (!node->is_table()) wrong_type(key, *node, "write it as [" + path_of(key) + "] and its keys below");
  return node->as_table();
}

std::vector<std::pair<SaidText, SaidText>> SettingsTable::all_texts() {
  std::vector<std::pair<SaidText, SaidText>> all;
  for (const auto [key, value] : entries_of(table_)) {
    const Place place = file_.place_of(*key);
    known_.push_back(key->str());
    if (is_blank(key->str())) {
      file_.fault("settings/empty", place, "a name in " + in_quotes(name_) + " is empty",
                  "write the heading as it stands in the file");
    } else if (auto text = text_of(key->str(), *value)) {
      all.push_back({{std::string(key->str()), place}, *std::move(text)});
    }
  }
  return all;
}

std::vector<std::pair<SaidText, const toml::table*>> SettingsTable::all_tables() {
  std::vector<std::pair<SaidText, const toml::table*>> all;
  for (const auto [key, value] : entries_of(table_)) {
    const toml::table* one = value->as_table();
    if (one == nullptr) continue;
    known_.push_back(key->str());
    all.push_back({{std::string(key->str()), file_.place_of(*key)}, one});
  }
  return all;
}

void SettingsTable::miss(std::string_view key, std::string hint) {
  known_.push_back(key);
  const Place where = name_.empty() ? Place{file_.name, 0, 0} : place();
  file_.fault("settings/missing-key", where, called(key) + " is missing", std::move(hint));
}

void SettingsTable::wrong_type(std::string_view key, const toml::node& node, std::string_view wanted) {
  file_.fault("settings/wrong-type", file_.place_of(node), called(key) + " is " + std::string(type_of(node)),
              std::string(wanted));
}

void SettingsTable::refuse_other_keys() {
  for (const auto [key, value] : entries_of(table_)) {
    if (std::find(known_.begin(), known_.end(), key->str()) != known_.end()) continue;
    file_.fault("settings/unknown-key", file_.place_of(*key), called(key->str()) + " is no setting",
                hint_for_unknown_key(key->str(), name_, known_));
  }
}

std::string hint_for_unknown_key(std::string_view key, std::string_view table,
                                 const std::vector<std::string_view>& known) {
  const auto home = std::find_if(homes.begin(), homes.end(), [&](const KeyInTable& k) { return k.key == key; });
  if (home == homes.end() || home->table == table) return did_you_mean(key, known);
  return home->table.empty() ? "it belongs at the top, above the first [heading]"
                             : "it belongs under [" + std::string(home->table) + "]";
}

}  // namespace driftwarden
