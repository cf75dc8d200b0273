// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/toml_file.hpp"
#include "quantity/units.hpp"

namespace driftwarden {

struct SaidText {
  std::string text;
  Place place;
};

// What a number or an amount must lie between, and how to say so ("-60 °C to 60 °C").
struct SaidRange {
  double low = 0;
  double high = 0;
  std::string_view in_words;
};

// One table of book.toml. Each question reports what is there and can't be used; what nobody asked for is a fault too.
class SettingsTable {
 public:
  // name: "" for the top, else as in "reference".
  SettingsTable(const toml::table& table, std::string name, TomlFile& file);

  Place place() const { return file_.place_of(table_); }
  bool has(std::string_view key) const { return table_.contains(key); }
  Place place_of(std::string_view key) const;

  std::optional<SaidText> text(std::string_view key);
  std::optional<std::vector<SaidText>> texts(std::string_view key);
  std::optional<double> number(std::string_view key, const SaidRange& range);
  std::optional<int> whole_number(std::string_view key, const SaidRange& range);
  // In the inside unit of the dimension; `example` shows how to write it.
  std::optional<double> amount(std::string_view key, Dimension dimension, const SaidRange& range,
                               std::string_view example);
  // One such amount, or a list of two, the smaller one first; plain numbers of a count. Twice the same for one.
  std::optional<std::pair<double, double>> span(std::string_view key, Dimension dimension, const SaidRange& range,
                                                std::string_view example);
  const toml::table* table(std::string_view key);
  const toml::node* find(std::string_view key);
  // Every entry as a text, in the order written: for tables whose keys are the owner's.
  std::vector<std::pair<SaidText, SaidText>> all_texts();

  // Every table in it, in the order written: for those whose names are the owner's.
  std::vector<std::pair<SaidText, const toml::table*>> all_tables();

  // A key that this table needs and has not.
  void miss(std::string_view key, std::string hint);
  void wrong_type(std::string_view key, const toml::node& node, std::string_view wanted);
  void refuse_other_keys();
  std::string called(std::string_view key) const;  // "'reference.pressure'"

 private:
  std::string path_of(std::string_view key) const;
  std::optional<SaidText> text_of(std::string_view key, const toml::node& node);
  bool is_within(double value, std::string_view key, const SaidRange& range);
  std::optional<double> amount_of_node(const toml::node& node, std::string_view key, Dimension dimension,
                                       const std::string& hint);

  const toml::table& table_;
  std::string name_;
  TomlFile& file_;
  std::vector<std::string_view> known_;
};

// The nearest right way to write a key that `table` ("" for the top) does not know.
std::string hint_for_unknown_key(std::string_view key, std::string_view table,
                                 const std::vector<std::string_view>& known);

}  // namespace driftwarden
