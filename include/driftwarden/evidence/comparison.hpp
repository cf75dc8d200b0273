// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace driftwarden {

// Where a packed text and the same text made anew part.
struct TextDifference {
  std::string file;
  std::string where;  // "sample 'S-1', drift_percent", "samples[3].flow_l_min", "line 12"
  std::string packed;
  std::string now;
  // Of a figure or verdict, and not only of the words or the form in which it is given.
  bool is_figure = false;
};

// "data/results/screen.csv: sample 'S-1', drift_percent: packed '-7.1', now '-3'". The texts are shown in quotes.
std::string to_text(const TextDifference& difference);

// Tables (.csv, by the name in their first column where it is there once) are compared cell by cell, JSON (.json)
// member by member, all else line by line. At most `most` differences are listed; `count` says how many there are.
struct TextComparison {
  std::vector<TextDifference> differences;
  std::size_t count = 0;
  std::size_t figures = 0;  // how many of them are about a figure
};
TextComparison compared(const std::string& file, std::string_view packed, std::string_view now, std::size_t most);

}  // namespace driftwarden
