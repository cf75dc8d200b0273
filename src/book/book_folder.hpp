// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "book/book.hpp"
#include "book/workbook.hpp"
#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

// A workbook of the book, with the bytes it was read with.
struct HeldWorkbook {
  HeldFile bytes;
  std::unique_ptr<Workbook> workbook;
};

// Why a file that is a table's can't be read, and the tables that it is, or may be, of. It stays among the files.
struct LostFile {
  Diagnostic fault;
  std::vector<std::string_view> tables;
};

// What lies in a book's folder at one moment.
struct BookFolder {
  BookFiles files;  // those that a table takes, each table's in order of name; of a workbook
                    // the sheet, "readings/W46.xlsx:week 46"
  std::map<std::string, HeldWorkbook> workbooks;  // by the file's name
  std::vector<LostFile> lost;
  std::set<std::string> refused;            // files that are not to be read, as is told of the lost ones
  std::map<std::string, FileStamp> stamps;  // of them, as far as they are there
  Diagnostics not_read;  // file/not-read: the others, each once; and folders that can't be looked into
};

// A table takes TABLE.csv and TABLE/*.csv, in the place of each .xlsx or .ods, and the sheets of book.xlsx or book.ods
// that bear its name; that of certificates also digital calibration certificates, certificates/*.xml. Of a workbook
// that is one table's, it takes the sheet that bears the table's name, else the only one that is shown and has
// something in it. The same stem in two formats is a fault (file/two-formats), and none of them is read. What is there
// by such a name is taken though it can't be read, and opening it tells why. Left out are what the owner ignores, what
// office programs, systems and version control leave behind, and pages that this program wrote.
BookFolder look_into(const std::filesystem::path& folder, const Settings& settings);

}  // namespace driftwarden
