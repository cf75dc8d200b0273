// SPDX-License-Identifier: MIT
#pragma once

#include <set>
#include <string>
#include <vector>

#include "book/table_layout.hpp"

namespace driftwarden {

// A column whose heading is none of ours, with what stands in its first cells.
struct UnknownColumn {
  std::string heading;
  std::vector<std::string> cells;
};

// What a column may be: theirs without its unit, ours as [headings.TABLE] in book.toml takes it.
struct HeadingGuess {
  std::string theirs;              // "Flow"
  std::string ours;                // "reading"
  std::string table_line() const;  // "Flow" = "reading"
};

// Which of our columns, of those that are not taken, the unknown ones may be: by a name that is near, or a word of it;
// dates and times of day by how their cells look, in order; a figure by its unit, where just one column that has to be
// there has that kind. Nobody leans on it: it is told, and the owner says.
std::vector<HeadingGuess> guessed_headings(const TableSpec& spec, const std::set<std::size_t>& taken,
                                           const std::vector<UnknownColumn>& unknown);

// "month first" or "day first": the one order of day and month that reads every cell, ISO dates set aside; "" where
// both or none do, or none is needed.
std::string only_order_of(const std::vector<std::string>& cells);
bool fits_both_orders(const std::vector<std::string>& cells);  // and is not ISO

}  // namespace driftwarden
