// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <memory>
#include <ostream>
#include <string>
#include <string_view>

namespace driftwarden {

// Columns that a table keeps to, and those of running text with its workings.
inline constexpr std::size_t table_width = 80;
inline constexpr std::size_t working_width = 100;
// Columns of what is no terminal: a file, a page, another program. There a table and a formula stand in one line.
inline constexpr std::size_t no_terminal = static_cast<std::size_t>(-1);

// A text of the book's as it may stand in a line on a terminal: characters that act instead of showing themselves
// (controls, marks that turn the direction of the text) and bytes that are no UTF-8 are written as \x.., line ends and
// tabs as blanks.
std::string for_terminal(std::string_view text);

// The same of a text of several lines: line ends and tabs stay and, with colours, those of Paint.
std::string safe_text(std::string_view text, bool has_colour);

// A text broken at blanks into lines of at most `width` characters, each after `indent` blanks.
std::string wrapped(std::string_view text, std::size_t indent, std::size_t width);

// A text of several lines in which none is longer than `width` characters where its words allow it: what is longer goes
// on two blanks further in. The blanks inside a line stay.
std::string folded(std::string_view text, std::size_t width);

// A stream through which everything written for people goes: it hands on what safe_text makes of it, line by line. So
// nobody who writes has to remember where a text came from.
class SafeText : public std::ostream {
 public:
  SafeText(std::ostream& behind, bool is_terminal);
  SafeText(const SafeText&) = delete;
  SafeText& operator=(const SafeText&) = delete;
  ~SafeText() override;

 private:
  std::unique_ptr<std::streambuf> buffer_;
};

// Where other programs read what is written, every byte counts: the stream behind a SafeText, unless a terminal reads.
std::ostream& exactly(std::ostream& out);

}  // namespace driftwarden
