// SPDX-License-Identifier: MIT
#include "command/given_text.hpp"

#include <ostream>

#include "command/opened_book.hpp"
#include "diagnostic/characters.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

std::string trimmed(const std::string& text) {
  const std::size_t from = text.find_first_not_of(" \t\r\n");
  return from == std::string::npos ? "" : text.substr(from, text.find_last_not_of(" \t\r\n") - from + 1);
}

// Whether others can read the text as it was meant: UTF-8, and nothing that acts on a terminal. Line ends may be.
bool is_plain(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    if (length == 0) return false;
    const std::string_view character = text.substr(0, length);
    if (is_control(character) && character != "\n" && character != "\t") return false;
    text.remove_prefix(length);
  }
  return true;
}

}  // namespace

std::optional<std::string> text_given(const GivenText& given, const Refuse& refuse) {
  const std::string text = trimmed(given.text);
  if (text.empty()) return refuse(given.option + " is empty", given.hint), std::nullopt;
  if (is_plain(text)) return text;
  refuse(given.option + " holds characters that don't show themselves: " + in_quotes(text),
         "write plain text, in UTF-8");
  return std::nullopt;
}

bool is_mark_for_nothing(const GivenText& given, const Book& book, const Refuse& refuse) {
  if (!book.settings.empty_marks.hold(given.text)) return false;
  refuse(given.option + " is " + in_quotes(given.text) + ", which this book reads as an empty cell",
         "write what others are to read");
  return true;
}

std::function<void()> tells_of_waiting(const TableSpec& spec, Surroundings& surroundings) {
  return [&spec, &surroundings] {
    tell(surroundings.err, {remark("table/waiting", {std::string(spec.table) + ".csv", 0, 0},
                                   "another run is writing to it", "this one waits until that is done")});
  };
}

}  // namespace driftwarden
