// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>

#include "driftwarden/book/book.hpp"
#include "driftwarden/diagnostic/diagnostic.hpp"

namespace driftwarden {

// What lies in a book's folder at one moment.
struct BookFolder {
  BookFiles files;                          // those that a table takes, each table's in order of name
  std::map<std::string, FileStamp> stamps;  // of them, as far as they are there
  Diagnostics not_read;  // file/not-read: the others, each once; and folders that can't be looked into
};

// A table takes TABLE.csv and TABLE/*.csv; what is there by such a name is taken though it can't be read, and opening
// it tells why. Left out are what the owner ignores, what office programs, systems and version control leave behind,
// and pages that this program wrote.
BookFolder look_into(const std::filesystem::path& folder, const Settings& settings);

}  // namespace driftwarden
