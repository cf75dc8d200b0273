// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "book/book.hpp"
#include "book/reread_file.hpp"

namespace driftwarden {

// So many problems with one cause are told as one.
inline constexpr std::size_t fewest_of_one_cause = 4;

// A book's problems, those with one cause told once, at the first of them: how many there are, where the first three
// stand, and which setting of book.toml would mend them, as far as reading the file with it shows. One cause have:
// faults of one kind in one column of one file, or in several that one setting mends; the same words about several rows
// of a file; the same words about the heading lines of several files. All others stay as they are.
Diagnostics told_by_cause(const Book& book);

// The same of problems that name files which are not, or not yet, the book's: `files` reads one again by its name.
Diagnostics told_by_cause(const Diagnostics& problems, const EmptyMarks& marks,
                          const std::function<std::optional<RereadFile>(const std::string& name)>& files);

}  // namespace driftwarden
