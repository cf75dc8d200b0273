// SPDX-License-Identifier: MIT
#include "book/book_folder.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <span>
#include <system_error>

#include "book/book_table.hpp"
#include "book/file_manner.hpp"
#include "book/own_page.hpp"
#include "book/plain_text.hpp"
#include "book/rows_received.hpp"
#include "book/table_files.hpp"
#include "diagnostic/joined.hpp"
#include "diagnostic/letters.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 3> table_endings{".csv", ".xlsx", ".ods"};
constexpr const char* what_is_read = "only files ending in .csv, .xlsx or .ods are";
constexpr std::size_t most_of_a_folder = 20;  // thousands would bury the rest

std::string ending_of(const std::string& name) { return in_small_letters(fs::path(name).extension().string()); }

// Locks and shadows that office programs leave beside a file, and what systems and version control keep for themselves.
bool is_nobodys(const std::string& name) {
  constexpr std::array<std::string_view, 6> beginnings{"~$", "._", ".~lock.", ".git", ".hg", ".svn"};
  constexpr std::array<std::string_view, 6> names{".ds_store",  "thumbs.db",  "desktop.ini",
                                                  ".directory", ".localized", receiving_note};
  const auto begins = [&name](std::string_view beginning) { return name.starts_with(beginning); };
  return std::any_of(beginnings.begin(), beginnings.end(), begins) ||
         std::find(names.begin(), names.end(), in_small_letters(name)) != names.end();
}

bool is_tables_ending(const std::string& ending) {
  return std::find(table_endings.begin(), table_endings.end(), ending) != table_endings.end();
}

bool is_spelt_like_a_sheet(const std::string& name) { return !split_sheet(name).sheet.empty(); }

bool is_there(const fs::path& path) {
  std::error_code fault;
  const fs::file_type type = fs::symlink_status(path, fault).type();
  return type != fs::file_type::not_found;
}

class FolderReader {
 public:
  FolderReader(const fs::path& folder, const Settings& settings) : folder_(folder), settings_(settings) {}

  BookFolder read() {
    common_ = common_workbook();
    for (const BookTable& table : book_tables()) {
      take_table(table);
      if (table.spec == &received_spec) received_ = text_of_receipts();
    }
    tell_other_sheets();
    taken_.insert("book.toml");
    for (const std::string& pack : settings_.packs) {
      if (pack.ends_with(".toml")) taken_.insert(fs::path(pack).lexically_normal().generic_string());
    }
    look_through("");
    return std::move(found_);
  }

 private:
  // What a table may be read from: a file, or the sheet of one.
  struct Candidate {
    std::string stem;  // "readings/W46"
    std::string name;
  };

  void take_table(const BookTable& table) {
    std::vector<Candidate> candidates;
    for (const std::string_view ending : table_endings) {
      const std::string name = table.name() + std::string(ending);
      if (is_there(folder_ / name)) candidates.push_back({table.name(), name});
    }
    for (const std::string& name : sheets_named(table)) candidates.push_back({table.name(), name});
    for (const std::string& name : inside_of(table))
      candidates.push_back({fs::path(name).replace_extension().string(), name});
    for (const Candidate& candidate : candidates) {
      taken_.insert(std::string(split_sheet(candidate.name).file));
      if (is_one_of_two(candidate, candidates, table)) found_.refused.insert(candidate.name);
      take(candidate.name, table);
    }
  }

  void take(const std::string& name, const BookTable& table) {
    std::vector<std::string>& files = found_.files.*table.files;
    const bool is_workbook = is_workbook_name(name) && !found_.refused.contains(name);
    files.push_back(is_workbook ? sheet_for(table, name) : name);
    const std::string file(split_sheet(files.back()).file);
    if (found_.stamps.contains(file)) return;
    if (const auto stamp = stamp_of(folder_ / file)) found_.stamps.emplace(file, *stamp);
  }

  // Whether a table may be read from another file of the same stem, too; told of the first of them.
  bool is_one_of_two(const Candidate& one, const std::vector<Candidate>& all, const BookTable& table) {
    std::vector<std::string> same;
    for (const Candidate& other : all) {
      if (other.stem == one.stem) same.push_back(other.name);
    }
    const auto is_of_other_format = [](const std::string& name) {
      return !split_sheet(name).sheet.empty() || is_workbook_name(name) || is_document_name(name);
    };
    if (same.size() < 2 || std::none_of(same.begin(), same.end(), is_of_other_format)) return false;
    if (same.front() != one.name) return true;
    std::string names = in_quotes(same.front());
    for (std::size_t i = 1; i < same.size(); ++i) names += (i + 1 == same.size() ? " and " : ", ") + in_quotes(same[i]);
    found_.lost.push_back({error("file/two-formats", {one.name, 0, 0},
                                 names + " are the same file of the table " + table.name() + " twice",
                                 "keep one of them in the book's folder"),
                           {table.spec->table}});
    return true;
  }

  // The book's one workbook, book.xlsx or book.ods, opened; nullptr where there is none to be used.
  const HeldWorkbook* common_workbook() {
    std::vector<std::string> there;
    for (const char* name : {"book.xlsx", "book.ods"}) {
      if (is_there(folder_ / name)) there.emplace_back(name);
    }
    std::vector<std::string_view> all_tables;
    for (const BookTable& table : book_tables()) all_tables.push_back(table.spec->table);
    taken_.insert(there.begin(), there.end());
    const auto refuse_all = [&] {
      for (const BookTable& table : book_tables())
        (found_.files.*table.files).insert((found_.files.*table.files).end(), there.begin(), there.end());
      found_.refused.insert(there.begin(), there.end());
      return nullptr;
    };
    if (there.size() > 1) {
      found_.lost.push_back(
          {error("file/two-formats", {there[0], 0, 0}, "'book.xlsx' and 'book.ods' are the same workbook twice",
                 "keep one of them in the book's folder"),
           all_tables});
      return refuse_all();
    }
    if (there.empty()) return nullptr;
    common_name_ = there[0];
    const HeldWorkbook* held = opened(there[0], all_tables);
    return held == nullptr ? refuse_all() : held;
  }

  std::vector<std::string> sheets_named(const BookTable& table) const {
    std::vector<std::string> names;
    if (common_ == nullptr) return names;
    for (const Sheet& sheet : common_->workbook->sheets()) {
      if (is_named_like(sheet, table)) names.push_back(common_name_ + ':' + sheet.name);
    }
    return names;
  }

  // The workbook of a name; nullptr, told, where it can't be read.
  const HeldWorkbook* opened(const std::string& name, const std::vector<std::string_view>& tables) {
    if (const auto stamp = stamp_of(folder_ / name)) found_.stamps.emplace(name, *stamp);
    Result<HeldFile> bytes = HeldFile::open(folder_ / name, name);
    Result<std::unique_ptr<Workbook>> workbook =
        bytes ? open_workbook(bytes->bytes(), name) : Result<std::unique_ptr<Workbook>>(bytes.faults());
    if (workbook) {
      HeldWorkbook held{*std::move(bytes), *std::move(workbook)};
      return &found_.workbooks.emplace(name, std::move(held)).first->second;
    }
    found_.lost.push_back({workbook.faults().front(), tables});
    return nullptr;
  }

  static bool is_named_like(const Sheet& sheet, const BookTable& table) {
    return heading_key(sheet.name) == heading_key(table.name());
  }

  // "readings/W46.xlsx:week 46" for the sheet of a workbook that a table takes; the file alone, refused, where it takes
  // none.
  std::string sheet_for(const BookTable& table, const std::string& name) {
    const HeldWorkbook* held = opened(name, {table.spec->table});
    if (held == nullptr) return refused(name);
    const Result<const Sheet*> sheet = chosen_sheet(table, *held->workbook, name);
    if (!sheet) {
      found_.lost.push_back({sheet.faults().front(), {table.spec->table}});
      return refused(name);
    }
    std::vector<std::string> others;
    for (const Sheet& other : held->workbook->sheets()) {
      if (&other != *sheet) others.push_back(other.name);
    }
    tell_sheets(name, others, "the table is read from the sheet " + in_quotes((*sheet)->name));
    tell_if_hidden(name, **sheet);
    return name + ':' + (*sheet)->name;
  }

  const std::string& refused(const std::string& name) { return *found_.refused.insert(name).first; }

  // The sheet that the owner says.
  static Result<const Sheet*> said_sheet(const std::string& said, const Workbook& workbook, const std::string& name) {
    std::vector<std::string> names;
    for (const Sheet& sheet : workbook.sheets()) {
      if (heading_key(sheet.name) == heading_key(said)) return &sheet;
      names.push_back(sheet.name);
    }
    return error("workbook/which-sheet", {name, 0, 0}, "it has no sheet " + in_quotes(said), did_you_mean(said, names));
  }

  Result<const Sheet*> chosen_sheet(const BookTable& table, const Workbook& workbook, const std::string& name) const {
    if (const std::string said = manner_of(settings_, name).sheet; !said.empty())
      return said_sheet(said, workbook, name);
    std::vector<const Sheet*> shown;
    std::string names;
    for (const Sheet& sheet : workbook.sheets()) {
      if (is_named_like(sheet, table)) return &sheet;
      if (sheet.is_hidden) continue;
      AnyCell any;
      if (std::optional<Diagnostic> fault = workbook.read(sheet, any)) return *std::move(fault);
      if (!any.is_there) continue;
      names += (shown.empty() ? "" : ", ") + in_quotes(sheet.name);
      shown.push_back(&sheet);
    }
    if (shown.size() == 1) return shown.front();
    return error("workbook/which-sheet", {name, 0, 0},
                 shown.empty() ? "no sheet that is shown has anything in it"
                               : "it has more than one sheet with something in it: " + names,
                 "call the one that is the table " + in_quotes(table.name()) +
                     ", or say sheet = … in book.toml under [files.\"" + name + "\"]");
  }

  // Whether there is anything in a sheet.
  class AnyCell : public SheetRows {
   public:
    bool row(std::uint32_t, std::span<const SheetCell>, bool) override { return is_there = true, false; }
    void hidden_columns(std::uint32_t, std::uint32_t) override {}
    void merged(std::string_view) override {}

    bool is_there = false;
  };

  void tell_sheets(const std::string& name, const std::vector<std::string>& sheets, const std::string& why) {
    if (sheets.empty()) return;
    std::string list = joined(std::span(sheets).first(std::min(sheets.size(), most_of_a_folder)), ", ", in_quotes);
    if (sheets.size() > most_of_a_folder) list += " and " + std::to_string(sheets.size() - most_of_a_folder) + " more";
    found_.not_read.push_back(
        remark("workbook/sheet-not-read", {name, 0, 0}, "sheets that are not read: " + list, why));
  }

  void tell_if_hidden(const std::string& name, const Sheet& sheet) {
    if (!sheet.is_hidden) return;
    found_.not_read.push_back(remark("workbook/hidden", {name, 0, 0},
                                     "the sheet " + in_quotes(sheet.name) + " is hidden, and read all the same",
                                     "give it another name if it must not count"));
  }

  // Of the book's one workbook.
  void tell_other_sheets() {
    if (common_ == nullptr) return;
    std::vector<std::string> others;
    for (const Sheet& sheet : common_->workbook->sheets()) {
      const auto is_it = [&sheet](const BookTable& table) { return is_named_like(sheet, table); };
      const bool is_table = std::any_of(book_tables().begin(), book_tables().end(), is_it);
      if (is_table) tell_if_hidden(common_name_, sheet);
      if (!is_table) others.push_back(sheet.name);
    }
    tell_sheets(common_name_, others, "no table has such a name");
  }

  // The files of a table's folder, in order of name; the folder itself where it can't be looked into.
  std::vector<std::string> inside_of(const BookTable& of) {
    const std::string table = of.name();
    std::error_code fault;
    const fs::file_status status = fs::status(folder_ / table, fault);
    if (!fs::is_directory(status)) {
      const bool is_readable_file = fs::is_regular_file(status);
      if (!is_there(folder_ / table) || is_readable_file) return {};
      return {table};
    }
    std::vector<std::string> inside;
    for (const std::string& name : names_in(table, fault)) {
      const bool is_taken = is_tables_ending(ending_of(name)) || (of.takes_documents && is_document_name(name));
      const bool is_named = is_taken && !is_nobodys(name) && !is_spelt_like_a_sheet(name);
      if (is_named && !is_left_unfinished(of, table + "/" + name)) inside.push_back(table + "/" + name);
    }
    if (!fault) return inside;
    tell_unlisted(table, fault);
    return {table};
  }

  // Once of each folder: opened as a file, it would have another reason.
  void tell_unlisted(const std::string& inside, const std::error_code& fault) {
    if (!unlisted_.insert(inside).second) return;
    found_.not_read.push_back(error("file/unreadable", {inside.empty() ? "." : inside, 0, 0},
                                    "the folder can't be looked into: " + fault.message(),
                                    "check that it may be read"));
  }

  // All that stands in the receipts; what of them can't be read is told when they are.
  std::string text_of_receipts() const {
    std::string text;
    for (const std::string& name : found_.files.received) {
      const auto [file, sheet] = split_sheet(name);
      if (!sheet.empty()) {
        text += text_of_sheet(*found_.workbooks.at(std::string(file)).workbook, sheet);
      } else if (const Result<HeldFile> held = HeldFile::open(folder_ / name, name)) {
        text += held->bytes();
      }
    }
    return text;
  }

  static std::string text_of_sheet(const Workbook& workbook, std::string_view name) {
    AllCells all;
    for (const Sheet& sheet : workbook.sheets()) {
      if (sheet.name == name) workbook.read(sheet, all);
    }
    return all.text;
  }

  class AllCells : public SheetRows {
   public:
    bool row(std::uint32_t, std::span<const SheetCell> cells, bool) override {
      for (const SheetCell& cell : cells) text += cell.text + '\n';
      return true;
    }
    void hidden_columns(std::uint32_t, std::uint32_t) override {}
    void merged(std::string_view) override {}

    std::string text;
  };

  // A file that rows were received into counts once received.csv names it, and so all files of one run at once.
  bool is_left_unfinished(const BookTable& of, const std::string& name) {
    if (!is_received_name(fs::path(name).filename().string()) || received_.find(name) != std::string::npos)
      return false;
    taken_.insert(name);
    // A run at work writes the note, the file, the receipt, and then takes the note away: looked at in this order, one
    // of the two names the file.
    const std::set<std::string> being_received = names_being_received(folder_);
    if (being_received.contains(name) || text_of_receipts().find(name) != std::string::npos) {
      found_.not_read.push_back(remark("receive/unfinished", {name, 0, 0},
                                       "it is not in received.csv: receiving it was not finished, and it is not read",
                                       "receive its rows again, or take it out of the folder"));
    } else {
      found_.lost.push_back({error("receive/not-named", {name, 0, 0},
                                   "rows were received into it, and it is in received.csv no more: it is not read",
                                   "put its line in received.csv back; or, if its rows are not to count any more, take "
                                   "the file out of the folder"),
                             {of.spec->table}});
    }
    return true;
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
    if (fault) tell_unlisted(inside, fault);
  }

  bool holds_something_taken(const std::string& path) const {
    const bool is_a_tables = std::any_of(book_tables().begin(), book_tables().end(),
                                         [&path](const BookTable& table) { return table.name() == path; });
    const auto next = taken_.lower_bound(path + "/");
    return is_a_tables || (next != taken_.end() && next->starts_with(path + "/"));
  }

  // By the owner's patterns, of a whole path or of the last name; what lies in a folder goes with it.
  bool is_ignored(const std::string& path) const {
    return std::any_of(settings_.ignored_files.begin(), settings_.ignored_files.end(),
                       [&](const std::string& pattern) { return fits_pattern(pattern, path); });
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
    constexpr std::array<std::string_view, 6> sheets{".xls", ".xlsm", ".xlsb", ".fods", ".numbers", ".tsv"};
    if (is_spelt_like_a_sheet(path)) return {"its name is spelt like a sheet of a workbook", "rename it"};
    if (std::find(sheets.begin(), sheets.end(), ending) != sheets.end())
      return {what_is_read, ending == ".tsv" ? "save it as CSV in UTF-8" : "save it as .xlsx"};
    if (is_document_name(path))
      return {"a digital calibration certificate lies in the folder certificates", "lay it there if it is one"};
    if (ending == ".toml") return {"it is not among the rule packs of book.toml", "name it there under [rules] packs"};
    if (path.find('/') != std::string::npos)
      return {is_tables_ending(ending) ? "no table takes it from this folder" : what_is_read, ""};
    std::vector<std::string> known;
    for (const BookTable& table : book_tables()) known.push_back(table.name());
    const std::string near = nearest(fs::path(path).stem().string(), known);
    return {"no table has this name",
            near.empty()
                ? ""
                : "call it " + in_quotes(near + (is_tables_ending(ending) ? ending : ".csv")) + " if it is that"};
  }

  const fs::path& folder_;
  const Settings& settings_;
  std::set<std::string> taken_;
  std::set<std::string> unlisted_;        // folders that could not be looked into
  std::string received_;                  // what stands in the receipts
  const HeldWorkbook* common_ = nullptr;  // book.xlsx or book.ods
  std::string common_name_;
  BookFolder found_;
};

}  // namespace

BookFolder look_into(const fs::path& folder, const Settings& settings) { return FolderReader(folder, settings).read(); }

}  // namespace driftwarden
