// SPDX-License-Identifier: MIT
#pragma once

#include <span>
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
  std::string about;  // the column or member; "" where the text has none
};

// A wording that is known to have changed.
struct Rewording {
  std::string before;
  std::string now;
};

// "data/results/screen.csv: sample 'S-1', drift_percent: packed '-7.1', now '-3'". The texts are shown in quotes.
std::string to_text(const TextDifference& difference);

// Tables (.csv, by the name in their first column where it is there once) are compared cell by cell, JSON (.json)
// member by member, all else line by line. In tables and JSON two figures that are apart by no more than a relative
// 1e-12 differ in their last digits, which is told and is no difference; nor is a wording that is known to have
// changed. Everything else is. At most `most` differences are listed; `count` says how many there are.
struct TextComparison {
  std::vector<TextDifference> differences;
  std::size_t count = 0;
  std::size_t last_digits = 0;  // figures
  std::size_t reworded = 0;     // cells, members or lines
};
TextComparison compared(const std::string& file, std::string_view packed, std::string_view now, std::size_t most,
                        std::span<const Rewording> rewordings = {});

}  // namespace driftwarden
