// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

// What a file of somebody's looks like, before there is a book: which table it may be, and how it is kept.
struct FileLook {
  std::string table;                                          // "": none can be told
  std::string sheet;                                          // of a workbook with several
  std::vector<std::pair<std::string, std::string>> headings;  // theirs, ours
  std::string dates;                                          // "day first", "month first"; "": ISO, or nobody can tell
  bool is_order_open = false;                                 // its dates fit both
  bool has_decimal_commas = false;
  std::vector<std::string> lacking;   // columns that every row needs, and that none of its columns may be
  std::vector<std::string> unplaced;  // its columns that none of ours may be
};

// Looks at a CSV file, at each sheet of a workbook that has something in it, or at a digital calibration certificate;
// `name` is what it is called in messages, and in its folder a hint at the table. Faults, in place of looks: that it
// can't be read.
struct FileLooks {
  std::vector<FileLook> looks;
  Diagnostics faults;
};
FileLooks look_at(const std::filesystem::path& path, const std::string& name);

}  // namespace driftwarden
