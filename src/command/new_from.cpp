// SPDX-License-Identifier: MIT
#include "command/new_from.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <system_error>

#include "book/file_look.hpp"
#include "diagnostic/joined.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// A path as book.toml has it: from the book's folder where the file lies in it, else its last name.
std::string name_in(const fs::path& folder, const fs::path& file) {
  std::error_code ignored;
  const fs::path relative = fs::relative(file, folder, ignored);
  const bool is_inside = !relative.empty() && !relative.generic_string().starts_with("..");
  return (is_inside ? relative : file.filename()).generic_string();
}

// "W45.csv" of the table readings lies at readings/W45.csv; one that is called like its table where it is.
std::string place_for(const std::string& name, const std::string& table) {
  const fs::path path(name);
  const bool is_there = path.parent_path() == table || (path.parent_path().empty() && path.stem() == table);
  return is_there ? "" : table + '/' + path.filename().string();
}

bool can_be_key(const std::string& text) { return text.find_first_of("\"\\\n\r\t") == std::string::npos; }

class Composer {
 public:
  Composer(const fs::path& folder, NewFrom& made) : folder_(folder), made_(made) {}

  void take(const std::string& file) {
    const std::string name = name_in(folder_, file);
    FileLooks found = look_at(file, name);
    made_.faults.insert(made_.faults.end(), found.faults.begin(), found.faults.end());
    if (!found.faults.empty()) return;
    std::vector<FileLook> tables;
    for (FileLook& look : found.looks) {
      if (!look.table.empty()) tables.push_back(std::move(look));
    }
    if (tables.empty()) return tell(name + ": no table of a book can be told in it");
    if (tables.size() > 1) return tell_sheets(name, tables);
    take_table(name, tables.front(), found.looks.size() > 1);
  }

  void write() {
    for (const auto& [table, map] : headings_) {
      made_.settings += "\n[headings." + table + "]\n";
      for (const auto& [theirs, ours] : map) made_.settings += '"' + theirs + "\" = \"" + ours + "\"\n";
    }
    for (const auto& [name, lines] : files_) made_.settings += "\n[files.\"" + name + "\"]\n" + lines;
  }

 private:
  void tell(std::string line) { made_.told.push_back(std::move(line)); }
  void tell_more(const std::string& line) { tell("  " + line); }

  void tell_sheets(const std::string& name, const std::vector<FileLook>& tables) {
    tell(name + ": several of its sheets are tables");
    for (const FileLook& look : tables) tell_more("call the sheet " + in_quotes(look.sheet) + " " + look.table);
    tell_more("call the workbook book" + fs::path(name).extension().string() + ", and lay it into the book's folder");
    for (const FileLook& look : tables) take_manner(name, look);
  }

  void take_table(const std::string& name, const FileLook& look, bool has_other_sheets) {
    const std::string place = place_for(name, look.table);
    tell(name + ": " + look.table + (place.empty() ? "" : "; lay it into the book's folder as " + place));
    take_manner(name, look);
    if (has_other_sheets && can_be_key(look.sheet)) add_line(name, "sheet = \"" + look.sheet + '"');
  }

  void take_manner(const std::string& name, const FileLook& look) {
    made_.tables.insert(look.table);
    std::map<std::string, std::string>& map = headings_[look.table];
    for (const auto& [theirs, ours] : look.headings) {
      const auto [known, is_new] = map.try_emplace(theirs, ours);
      if (!is_new && known->second != ours)
        tell_more(in_quotes(theirs) + " may be " + ours + " here, and is " + known->second + " in another file");
      if (is_new) tell_more(in_quotes(theirs) + " is taken for " + ours);
    }
    if (map.empty()) headings_.erase(look.table);
    if (!look.dates.empty()) add_line(name, "dates = \"" + look.dates + '"');
    if (look.has_decimal_commas) add_line(name, "decimal = \",\"");
    if (look.is_order_open) tell_more("its dates fit day first and month first: say dates = … for it");
    if (!look.lacking.empty()) tell_more("to be said or added: what is " + joined(look.lacking, ", ", in_quotes));
    if (!look.unplaced.empty()) tell_more("not placed, kept as notes: " + joined(look.unplaced, ", ", in_quotes));
  }

  void add_line(const std::string& name, const std::string& line) {
    if (!can_be_key(name)) return tell_more("its name can't stand in book.toml: " + line);
    std::string& lines = files_[name];
    if (lines.find(line) == std::string::npos) lines += line + '\n';
  }

  const fs::path& folder_;
  NewFrom& made_;
  std::map<std::string, std::map<std::string, std::string>> headings_;
  std::map<std::string, std::string> files_;
};

}  // namespace

NewFrom new_from(const fs::path& folder, const std::vector<std::string>& files) {
  NewFrom made;
  Composer composer(folder, made);
  for (const std::string& file : files) composer.take(file);
  composer.write();
  return made;
}

}  // namespace driftwarden
