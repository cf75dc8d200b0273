// SPDX-License-Identifier: MIT
#include "book/book_folder.hpp"

#include <fnmatch.h>

#include <algorithm>
#include <array>
#include <set>
#include <system_error>

#include "book/plain_text.hpp"
#include "driftwarden/book/book_table.hpp"
#include "driftwarden/book/own_page.hpp"
#include "driftwarden/diagnostic/letters.hpp"
#include "driftwarden/diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_of_a_folder = 20;  // thousands would bury the rest

std::string ending_of(const std::string& name) { return in_small_letters(fs::path(name).extension().string()); }

// Locks and shadows that office programs leave beside a file, and what systems and version control keep for themselves.
bool is_nobodys(const std::string& name) {
  constexpr std::array<std::string_view, 6> beginnings{"~$", "._", ".~lock.", ".git", ".hg", ".svn"};
  constexpr std::array<std::string_view, 5> names{".ds_store", "thumbs.db", "desktop.ini", ".directory", ".localized"};
  const auto begins = [&name](std::string_view beginning) { return name.starts_with(beginning); };
  return std::any_of(beginnings.begin(), beginnings.end(), begins) ||
         std::find(names.begin(), names.end(), in_small_letters(name)) != names.end();
}

bool is_there(const fs::path& path) {
  std::error_code fault;
  const fs::file_type type = fs::symlink_status(path, fault).type();
  return type != fs::file_type::not_found;
}

class FolderReader {
 public:
  FolderReader(const fs::path& folder, const Settings& settings) : folder_(folder), settings_(settings) {}

  BookFolder read() {
    for (const BookTable& table : book_tables()) take_table(table);
    taken_.insert("book.toml");
    for (const std::string& pack : settings_.packs) {
      if (pack.ends_with(".toml")) taken_.insert(fs::path(pack).lexically_normal().generic_string());
    }
    look_through("");
    return std::move(found_);
  }

 private:
  void take_table(const BookTable& table) {
    std::vector<std::string>& files = found_.files.*table.files;
    if (is_there(folder_ / table.file())) files.push_back(table.file());
    std::vector<std::string> inside = inside_of(table.name());
    files.insert(files.end(), inside.begin(), inside.end());
    for (const std::string& name : files) {
      taken_.insert(name);
      if (const auto stamp = stamp_of(folder_ / name)) found_.stamps.emplace(name, *stamp);
    }
  }

  // The files of a table's folder, in order of name; the folder itself where it can't be looked into.
  std::vector<std::string> inside_of(const std::string& table) {
    std::error_code fault;
    const fs::file_status status = fs::status(folder_ / table, fault);
    if (!fs::is_directory(status)) {
      const bool is_readable_file = fs::is_regular_file(status);
      if (!is_there(folder_ / table) || is_readable_file) return {};
      return {table};
    }
    std::vector<std::string> inside;
    for (const std::string& name : names_in(table, fault)) {
      if (ending_of(name) == ".csv" && !is_nobodys(name)) inside.push_back(table + "/" + name);
    }
    if (fault) return {table};
    return inside;
  }

  std::vector<std::string> names_in(const std::string& inside, std::error_code& fault) const {
    std::vector<std::string> names;
    fs::directory_iterator entry(folder_ / inside, fault);
    for (; !fault && entry != fs::directory_iterator(); entry.increment(fault))
      names.push_back(entry->path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
  }

  // Names what nothing takes in a folder ("" for the book's own) and in those below it that hold something taken.
  void look_through(const std::string& inside) {
    std::error_code fault;
    std::size_t told = 0;
    std::size_t untold = 0;
    for (const std::string& name : names_in(inside, fault)) {
      const std::string path = inside.empty() ? name : inside + "/" + name;
      if (taken_.count(path) > 0 || is_nobodys(name) || is_ignored(path) || is_own_page(folder_ / path)) continue;
      std::error_code ignored;
      const bool is_folder = fs::is_directory(folder_ / path, ignored);
      if (is_folder && holds_something_taken(path)) {
        look_through(path);
      } else if (is_folder && name.starts_with('.')) {
        continue;
      } else if (told++ < most_of_a_folder) {
        tell(path, is_folder);
      } else {
        ++untold;
      }
    }
    if (untold > 0) {
      found_.not_read.push_back(remark("file/not-read", {inside.empty() ? "." : inside, 0, 0},
                                       "and " + std::to_string(untold) + " more here that no table takes",
                                       hint_to_ignore()));
    }
    if (fault) {
      found_.not_read.push_back(error("file/unreadable", {inside.empty() ? "." : inside, 0, 0},
                                      "the folder can't be looked into: " + fault.message(),
                                      "check that it may be read"));
    }
  }

  bool holds_something_taken(const std::string& path) const {
    const bool is_a_tables = std::any_of(book_tables().begin(), book_tables().end(),
                                         [&path](const BookTable& table) { return table.name() == path; });
    const auto next = taken_.lower_bound(path + "/");
    return is_a_tables || (next != taken_.end() && next->starts_with(path + "/"));
  }

  // By the owner's patterns, of a whole path or of the last name; what lies in a folder goes with it.
  bool is_ignored(const std::string& path) const {
    const std::string name = fs::path(path).filename().string();
    return std::any_of(settings_.ignored_files.begin(), settings_.ignored_files.end(), [&](const std::string& pattern) {
      return ::fnmatch(pattern.c_str(), path.c_str(), 0) == 0 || ::fnmatch(pattern.c_str(), name.c_str(), 0) == 0;
    });
  }

  static std::string hint_to_ignore() { return "name it in book.toml under [files] ignore if it need not be read"; }

  void tell(const std::string& path, bool is_folder) {
    const auto [why, hint] =
        is_folder ? std::pair<std::string, std::string>("no table takes this folder", "") : why_not(path);
    found_.not_read.push_back(remark("file/not-read", {path, 0, 0}, "is not read: " + why,
                                     hint.empty() ? hint_to_ignore() : hint + ", or " + hint_to_ignore()));
  }

  // Why a file is not taken, and what would have it taken.
  std::pair<std::string, std::string> why_not(const std::string& path) const {
    const std::string ending = ending_of(path);
    constexpr std::array<std::string_view, 7> sheets{".xlsx", ".xls", ".xlsm", ".xlsb", ".ods", ".numbers", ".tsv"};
    if (std::find(sheets.begin(), sheets.end(), ending) != sheets.end())
      return {"only files ending in .csv are", "save it as CSV in UTF-8"};
    if (ending == ".toml") return {"it is not among the rule packs of book.toml", "name it there under [rules] packs"};
    if (path.find('/') != std::string::npos)
      return {ending == ".csv" ? "no table takes it from this folder" : "only files ending in .csv are", ""};
    std::vector<std::string> known;
    for (const BookTable& table : book_tables()) known.push_back(table.name());
    const std::string near = nearest(fs::path(path).stem().string(), known);
    return {"no table has this name", near.empty() ? "" : "call it " + in_quotes(near + ".csv") + " if it is that"};
  }

  const fs::path& folder_;
  const Settings& settings_;
  std::set<std::string> taken_;
  BookFolder found_;
};

}  // namespace

BookFolder look_into(const fs::path& folder, const Settings& settings) { return FolderReader(folder, settings).read(); }

}  // namespace driftwarden
