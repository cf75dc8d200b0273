// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "book/toml_file.hpp"
#include "rule/stated_limit.hpp"
#include "rule/words.hpp"

namespace driftwarden {

// A string as it stands, a number or yes/no as its text; empty for anything else.
std::optional<std::string> plain_text_of(const toml::node& node);
// Lets letters, digits, '-', '_' and '.' pass; reports anything else.
void check_name(const std::string& name, const Place& place, TomlFile& file);

// A word as a cell of the book may hold it: any text that shows itself, without blanks at its ends.
void check_cell_text(const std::string& word, const Place& place, TomlFile& file);

// Takes what it knows out of a table, key by key; what nobody asked for is reported at the end.
class TableReader {
 public:
  // what: the thing described, as in "rule 'drift'".
  TableReader(const toml::table& table, TomlFile& file, std::string what);

  void call(std::string what) { what_ = std::move(what); }
  const std::string& what() const { return what_; }
  Place place() const { return file_.place_of(table_); }

  // Without any report where there is none.
  const toml::node* find(std::string_view key);
  // With a report where there is none.
  const toml::node* require(std::string_view key, std::string hint = {});
  Place place_of_key(std::string_view key) const;

  // Each reports what is there and can't be used.
  std::string text(std::string_view key);
  std::string required_text(std::string_view key, std::string hint = {});
  std::optional<bool> yes_no(std::string_view key);
  std::optional<double> number(std::string_view key);
  const toml::table* table(std::string_view key);
  std::vector<const toml::table*> tables(std::string_view key);

  template <class E>
  std::optional<E> word(std::string_view key) {
    return named<E>(word_among(key, words<E>(), false));
  }
  template <class E>
  std::optional<E> required_word(std::string_view key) {
    return named<E>(word_among(key, words<E>(), true));
  }
  // "" where there is none of the words.
  std::string word_among(std::string_view key, std::span<const std::string_view> known, bool required);

  void fault(std::string id, Place place, std::string message, std::string hint = {});
  void refuse_other_keys();

 private:
  std::string text_of(std::string_view key, const toml::node& node);
  void wrong_type(std::string_view key, const toml::node& node, std::string_view wanted);

  const toml::table& table_;
  TomlFile& file_;
  std::string what_;
  std::vector<std::string_view> known_;
};

}  // namespace driftwarden
