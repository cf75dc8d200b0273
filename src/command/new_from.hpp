// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

// What a new book says of the files that its owner has: lines of book.toml, and what there is to do.
struct NewFrom {
  std::string settings;           // to stand behind those of any new book
  std::vector<std::string> told;  // about each file, in order
  std::set<std::string> tables;   // that the files hold
  Diagnostics faults;             // of files that can't be read
};

// Looks at files and writes into none. `folder` is the book's: where files lie in it, they are named from there.
NewFrom new_from(const std::filesystem::path& folder, const std::vector<std::string>& files);

}  // namespace driftwarden
