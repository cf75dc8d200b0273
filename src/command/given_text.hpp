// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "book/book.hpp"
#include "book/table_layout.hpp"
#include "command/command_line.hpp"

namespace driftwarden {

// Tells why a command writes nothing into the book: a message and a hint.
using Refuse = std::function<void(std::string message, std::string hint)>;

// What a person says on the command line that goes into the book.
struct GivenText {
  std::string option;  // "--by"
  std::string text;
  std::string hint;  // where it is empty
};

// The text without blanks around it; nothing (refused) where it is empty or holds what does not show itself.
std::optional<std::string> text_given(const GivenText& given, const Refuse& refuse);

// Whether the book would read the text as an empty cell (refused).
bool is_mark_for_nothing(const GivenText& given, const Book& book, const Refuse& refuse);

// Tells that another run is writing to a table: what append_rows calls before it waits.
std::function<void()> tells_of_waiting(const TableSpec& spec, Surroundings& surroundings);

}  // namespace driftwarden
