// SPDX-License-Identifier: MIT
#include "book/book.hpp"

#include <algorithm>
#include <map>
#include <system_error>

#include "book/book_folder.hpp"
#include "book/book_table.hpp"
#include "book/heading_line.hpp"
#include "book/sheet_text.hpp"
#include "book/table_files.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// The beginning of a file with the whole of its heading line, and of those among which that is looked for.
std::string_view with_heading_line(const PiecedFile& file, const FileManner& manner) {
  const std::string_view head = file.head();
  const bool is_enough = head.size() == file.size() ||
                         (manner.heading_line <= most_lines_above && count_line_ends(head) > 2 * most_lines_above);
  return is_enough ? head : file.bytes();
}

// How a file has changed since its stamp was taken, before it is read. Behind its end it may have grown.
std::optional<Diagnostic> change_before_reading(const fs::path& path, const std::string& name, const FileStamp& stamp) {
  const std::optional<FileStamp> now = stamp_of(path);
  if (!now) return file_changed(name, "it is gone");
  if (now->size < stamp.size) return file_changed(name, "it became shorter");
  if (now->size == stamp.size && *now != stamp) return file_changed(name, "it was written to");
  return std::nullopt;
}

// A file as it was when the book was looked into; else nothing, and in `problems` why, or among the changes.
std::optional<PiecedFile> open_bytes(const std::string& name, const BookInHand& hand, Diagnostics& problems) {
  const fs::path path = hand.book.folder / name;
  const auto known = hand.found.stamps.find(name);
  const bool is_known = known != hand.found.stamps.end();
  const FileStamp stamp = is_known ? known->second : FileStamp{};
  std::optional<Diagnostic> change = is_known ? change_before_reading(path, name, stamp) : std::nullopt;
  Result<PiecedFile> file = PiecedFile::open(path, name, stamp);
  if (file && !is_known) change = file_changed(name, "it was not there before");
  if (change) hand.changes.push_back(*change);
  if (!file) problems = file.faults();
  if (change || !file) return std::nullopt;
  return *std::move(file);
}

// A file, opened, with its heading line understood; a document has none.
std::optional<TableFile> open_file(const std::string& name, std::uint32_t number, const TableSpec& spec,
                                   const BookInHand& hand, Diagnostics& problems) {
  std::optional<PiecedFile> file = open_bytes(name, hand, problems);
  if (!file) return std::nullopt;
  if (is_document_name(name)) return TableFile{name, number, *std::move(file), {}, {}, true};
  const HeadingMap& owners = owners_headings(hand.book.settings, spec.table);
  FileManner manner = manner_of(hand.book.settings, name);
  std::optional<TableLayout> layout =
      read_layout({with_heading_line(*file, manner), name, 0, manner.heading_line}, spec, owners, problems);
  if (!layout) return std::nullopt;
  layout->ignored = manner.ignored;
  return TableFile{name, number, *std::move(file), *std::move(layout), std::move(manner)};
}

const Sheet& sheet_named(const Workbook& workbook, std::string_view name) {
  return *std::find_if(workbook.sheets().begin(), workbook.sheets().end(),
                       [name](const Sheet& sheet) { return sheet.name == name; });
}

// Which columns of a sheet are in %, by its headings. What is wrong with those is told elsewhere.
std::vector<bool> percent_columns(const TableText& heading_line, const TableSpec& spec, const HeadingMap& owners) {
  Diagnostics untold;
  std::vector<bool> percent;
  const std::optional<TableLayout> layout = read_layout(heading_line, spec, owners, untold);
  if (!layout) return percent;
  percent.resize(layout->columns);
  for (std::size_t field = 0; field < layout->column_of_field.size(); ++field) {
    const int column = layout->column_of_field[field];
    if (column != TableLayout::absent)
      percent[static_cast<std::size_t>(column)] = layout->unit_of_field[field].name == "%";
  }
  return percent;
}

// The same for a sheet of a workbook.
std::optional<TableFile> open_sheet(const std::string& name, std::uint32_t number, const TableSpec& spec,
                                    const BookInHand& hand, Diagnostics& problems) {
  const auto [file, sheet] = split_sheet(name);
  const Workbook& workbook = *hand.found.workbooks.at(std::string(file)).workbook;
  const HeadingMap& owners = owners_headings(hand.book.settings, spec.table);
  FileManner manner = manner_of(hand.book.settings, name);
  const SheetForm form{
      name, manner.decimal, [&](std::string_view line, std::uint32_t row) {
        const std::string padded = std::string(line) + std::string(HeldFile::padding, '\0');
        return percent_columns({std::string_view(padded).substr(0, line.size()), name, row}, spec, owners);
      }};
  const Result<SheetText> made = sheet_text(workbook, sheet_named(workbook, sheet), form);
  if (!made || made->first_row == 0) {
    problems = made ? Diagnostics{error("heading/none", {name, 0, 0}, "nothing stands in the sheet",
                                        "begin it with the columns' names")}
                    : made.faults();
    return std::nullopt;
  }
  problems = made->remarks;
  PiecedFile text = PiecedFile::of_text(made->text);
  std::optional<TableLayout> layout =
      read_layout({text.bytes(), name, made->first_row, manner.heading_line}, spec, owners, problems);
  if (!layout) return std::nullopt;
  layout->ignored = manner.ignored;
  return TableFile{name, number, std::move(text), *std::move(layout), std::move(manner)};
}

std::vector<TableFile> open_files(const std::vector<std::string>& names, const TableSpec& spec,
                                  const BookInHand& hand) {
  Diagnostics problems;
  check_owners_headings(owners_headings(hand.book.settings, spec.table), spec, problems);
  hand.problems.add(problems);
  std::vector<TableFile> files;
  for (std::uint32_t number = 0; number < names.size(); ++number) {
    if (hand.found.refused.contains(names[number])) continue;
    problems.clear();
    const bool is_sheet = !split_sheet(names[number]).sheet.empty();
    std::optional<TableFile> file = (is_sheet ? open_sheet : open_file)(names[number], number, spec, hand, problems);
    for (const Diagnostic& problem : problems) {
      const ProblemNumber told = hand.problems.add(problem);
      if (!file && is_error(problem)) hand.lose(spec.table, told);
    }
    if (file) files.push_back(*std::move(file));
  }
  return files;
}

void report_missing(const BookTable& table, const BookInHand& hand) {
  const std::string name = table.file();
  hand.lose(table.spec->table, hand.problems.add(error("book/no-table", {name, 0, 0}, "the book has no " + name,
                                                       "add it; 'driftwarden new' shows its columns")));
}

// Notes that a file has been read to its end, and what became of it meanwhile.
void note_seen(const Result<FileAsRead>& seen, const BookInHand& hand) {
  const std::optional<Diagnostic> change = seen ? change_of(hand.book.folder, *seen) : seen.faults().front();
  if (change && is_error(*change)) {
    hand.changes.push_back(*change);
  } else {
    hand.book.seen.push_back(*seen);
    if (change) hand.problems.add(*change);
  }
}

// Workbooks are read as a whole before their sheets are.
void note_workbooks(const BookInHand& hand) {
  const std::vector<std::string> files = files_of(hand.book);
  for (const auto& [name, held] : hand.found.workbooks) {
    if (std::find(files.begin(), files.end(), name) == files.end()) continue;  // a common one without a table
    const auto stamp = hand.found.stamps.find(name);
    const std::string_view bytes = held.bytes.bytes();
    const bool is_as_it_was = stamp != hand.found.stamps.end() && stamp->second.size == bytes.size();
    note_seen(is_as_it_was ? Result<FileAsRead>(FileAsRead{name, stamp->second, print_of(bytes)})
                           : file_changed(name, "it was written to"),
              hand);
  }
}

// What could not be taken from the folder.
void tell_lost(const BookInHand& hand) {
  for (const LostFile& lost : hand.found.lost) {
    const ProblemNumber told = hand.problems.add(lost.fault);
    for (const std::string_view table : lost.tables) hand.lose(table, told);
  }
}

std::vector<std::string> all_sources(const Book& book) {
  std::vector<std::string> names;
  for (const BookTable& table : book_tables()) {
    const std::vector<std::string>& of_table = book.files.*table.files;
    names.insert(names.end(), of_table.begin(), of_table.end());
  }
  return names;
}

void read_tables(const BookInHand& hand) {
  tell_lost(hand);
  hand.problems.add(idle_patterns(hand.book.settings, all_sources(hand.book)));
  for (const BookTable& table : book_tables()) {
    const std::vector<std::string>& names = hand.book.files.*table.files;
    if (table.is_required && names.empty()) report_missing(table, hand);
    const std::vector<TableFile> files = open_files(names, *table.spec, hand);
    table.read(files, hand);
    for (const TableFile& file : files) {
      if (!file.layout.is_of_sheet) note_seen(file.bytes.seen(), hand);
    }
  }
  note_workbooks(hand);
  hint_at_instruments(hand.book, hand.problems);
  hand.book.lost_readings = hand.lost[readings_spec.table];
  hand.book.lost_results = hand.lost[results_spec.table];
}

const FileAsRead* seen_by_name(const Book& book, const std::string& name) {
  const auto found =
      std::find_if(book.seen.begin(), book.seen.end(), [&](const FileAsRead& it) { return it.name == name; });
  return found == book.seen.end() ? nullptr : &*found;
}

// Puts the problems in order and gives the records the new numbers.
void settle_problems(Book& book, const ProblemList& problems) {
  ProblemList::Sorted sorted = problems.sorted();
  book.problems = std::move(sorted.problems);
  if (book.problems.empty()) return;
  const auto renumber = [&sorted](ProblemNumber& number) { number = sorted.new_number[number]; };
  for (Instrument& instrument : book.instruments) renumber(instrument.problem);
  for (Certificate& certificate : book.certificates) renumber(certificate.problem);
  for (Row row = 0; row < book.samples.size(); ++row) renumber(book.samples.problem[row]);
  renumber(book.lost_readings);
  renumber(book.lost_results);
  for (LaboratoryResult& result : book.results) renumber(result.problem), renumber(result.twice);
  for (ControlFilter& control : book.controls) renumber(control.problem), renumber(control.twice);
  for (auto& [row, number] : book.readings.problem) renumber(number);
}

}  // namespace

const HeadingMap& owners_headings(const Settings& settings, std::string_view table) {
  static const HeadingMap none;
  const auto found = settings.headings.find(std::string(table));
  return found == settings.headings.end() ? none : found->second;
}

Place Book::place(const std::vector<std::string>& table_files, RowPlace place) const {
  return {table_files[place.file], place.line, 0};
}

std::string Book::place_text(const std::vector<std::string>& table_files, RowPlace at) const {
  return to_text(place(table_files, at));
}

Result<Book> read_book(const fs::path& folder, unsigned threads, const Advance& advance) {
  std::error_code ignored;
  if (!fs::is_directory(folder, ignored)) {
    return error("book/no-folder", {folder.string(), 0, 0},
                 fs::exists(folder, ignored) ? "this is a file and not a folder" : "there is no such folder",
                 "name the folder that holds book.toml");
  }
  const std::optional<FileStamp> stamp = stamp_of(folder / "book.toml");
  const Result<HeldFile> text = HeldFile::open(folder / "book.toml", "book.toml");
  if (!text && fs::exists(fs::symlink_status(folder / "book.toml", ignored))) {
    return error("book/no-settings", {(folder / "book.toml").string(), 0, 0}, text.faults().front().message,
                 "check that it may be read");
  }
  if (!text) {
    return error("book/no-settings", {(folder / "book.toml").string(), 0, 0},
                 "the folder has no book.toml that can be read", "'driftwarden new' writes a sound one");
  }
  Result<Settings> settings = parse_settings(text->bytes(), "book.toml");
  if (!settings) return settings.faults();
  Book book;
  book.folder = folder;
  book.settings_text = text->bytes();
  book.settings = *std::move(settings);
  book.seen.push_back({"book.toml", stamp.value_or(FileStamp{}), print_of(text->bytes())});
  BookFolder found = look_into(folder, book.settings);
  book.files = std::move(found.files);
  ProblemList problems;
  problems.add(found.not_read);
  SharedTexts texts(book.texts);
  std::map<std::string_view, ProblemNumber> lost;
  Diagnostics changes;
  read_tables({book, problems, texts, std::max(threads, 1U), lost, advance, found, changes});
  if (change_of(folder, book.seen.front())) changes.push_back(file_changed("book.toml", "it was written to"));
  if (!changes.empty()) return changes;
  settle_problems(book, problems);
  return book;
}

bool was_read(const Book& book, const std::string& name) { return seen_by_name(book, name) != nullptr; }

Result<HeldFile> read_again(const Book& book, const std::string& name) {
  const FileAsRead* seen = seen_by_name(book, name);
  Result<HeldFile> file = HeldFile::open(book.folder / name, name);
  if (!file || seen == nullptr) return file;
  file->keep_first(static_cast<std::size_t>(seen->stamp.size));
  if (print_of(file->bytes()) == seen->print) return file;
  return file_changed(name, "other bytes stand in it than were read");
}

}  // namespace driftwarden
