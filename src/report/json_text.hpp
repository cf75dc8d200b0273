// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace driftwarden {

// Writes JSON (RFC 8259) into a text, piece by piece, so that a document of any length needs no tree in memory.
// Commas are put by the writer. Texts that aren't UTF-8 have the offending bytes replaced by U+FFFD.
class JsonText {
 public:
  explicit JsonText(std::string& out) : out_(out) {}

  JsonText& key(std::string_view name);
  JsonText& begin_object();
  JsonText& end_object();
  JsonText& begin_array();
  JsonText& end_array();
  JsonText& value(std::string_view text);
  JsonText& value(double figure);  // null where it is missing; whole numbers without a decimal point
  JsonText& value(std::size_t count);
  JsonText& value(bool yes);
  JsonText& null();
  JsonText& raw(std::string_view json);                                  // a value that is JSON already
  JsonText& text_or_null(std::string_view name, std::string_view text);  // a member: null where nobody says anything
  JsonText& texts(std::string_view name, std::span<const std::string> all);  // a member: a list of them

  template <class T>
  JsonText& member(std::string_view name, const T& content) {
    return key(name).value(content);
  }
  JsonText& member(std::string_view name, const char* text) { return key(name).value(std::string_view(text)); }

 private:
  void separate();

  std::string& out_;
  bool needs_comma_ = false;
};

}  // namespace driftwarden
