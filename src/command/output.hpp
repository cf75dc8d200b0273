// SPDX-License-Identifier: MIT
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

#include "command/command_line.hpp"
#include "diagnostic/diagnostic.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// Writes a result to a file, or to standard output where none is named. A table, which people read, is made safe on its
// way; what other programs read goes out byte for byte. False (told) where it can't be written.
bool write_out(std::string_view text, const std::string& format, const std::string& file, Surroundings& surroundings);

// The format that is meant: what was said, else what the end of the file's name says, else the first. Nothing (told)
// where the name ends in what is none of these, where a file is called .pdf and is to be something else, or a PDF has
// no file to go to.
std::optional<std::string> format_meant(const std::string& said, const std::string& file,
                                        std::initializer_list<std::string_view> formats, Surroundings& surroundings);

// The CSS size of the paper that was named; "" for all but a PDF, for then it is the printer's.
std::string paper_of(std::string_view format, const std::string& paper);

// A result and where it goes; a PDF is printed from the text of its page.
struct ResultText {
  std::string text;
  std::string format;
  std::string file;
  Day as_of = no_day;
};
bool write_result(const ResultText& result, Surroundings& surroundings);

// Writes a page: as it is, or as "pdf", whose date is the day of `as_of`. Why it can't be done.
Diagnostics write_page(const std::string& html, const std::string& format, const std::string& file, Day as_of);

inline bool is_for_people(std::string_view format) { return format == "table"; }

}  // namespace driftwarden
