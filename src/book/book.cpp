// SPDX-License-Identifier: MIT
#include "driftwarden/book/book.hpp"

#include <algorithm>
#include <map>
#include <system_error>

#include "book/table_files.hpp"
#include "driftwarden/book/book_table.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// Also those that some systems write in capitals.
bool is_table_file(const fs::path& path) {
  const std::string ending = path.extension().string();
  constexpr std::string_view wanted = ".csv";
  return std::equal(ending.begin(), ending.end(), wanted.begin(), wanted.end(),
                    [](char a, char b) { return (a >= 'A' && a <= 'Z' ? static_cast<char>(a - 'A' + 'a') : a) == b; });
}

// "readings.csv" and "readings/*.csv", in order of name, as named from the book's folder.
std::vector<std::string> names_of_files(const fs::path& folder, const std::string& table) {
  std::vector<std::string> names;
  std::error_code fault;
  // A link that leads nowhere is a file that can't be read, not no file.
  if (fs::exists(fs::symlink_status(folder / (table + ".csv"), fault))) names.push_back(table + ".csv");
  if (!fs::is_directory(folder / table, fault)) return names;
  std::vector<std::string> inside;
  fs::directory_iterator entry(folder / table, fault);
  for (; !fault && entry != fs::directory_iterator(); entry.increment(fault)) {
    if (is_table_file(entry->path())) inside.push_back(table + "/" + entry->path().filename().string());
  }
  // Opening the folder as a file will tell why it can't be read.
  if (fault) inside.push_back(table);
  std::sort(inside.begin(), inside.end());
  names.insert(names.end(), inside.begin(), inside.end());
  return names;
}

// A file, opened, with its heading line understood; else nothing, and in `problems` why.
std::optional<TableFile> open_file(const std::string& name, std::uint32_t number, const TableSpec& spec,
                                   const BookInHand& hand, Diagnostics& problems) {
  Result<MappedFile> bytes = MappedFile::open(hand.book.folder / name, name);
  if (!bytes) {
    problems = bytes.faults();
    return std::nullopt;
  }
  const HeadingMap& owners = owners_headings(hand.book.settings, spec.table);
  std::optional<TableLayout> layout = read_layout(bytes->bytes(), name, spec, owners, problems);
  if (!layout) return std::nullopt;
  return TableFile{name, number, *std::move(bytes), *std::move(layout)};
}

std::vector<TableFile> open_files(const std::vector<std::string>& names, const TableSpec& spec,
                                  const BookInHand& hand) {
  Diagnostics problems;
  check_owners_headings(owners_headings(hand.book.settings, spec.table), spec, problems);
  hand.problems.add(problems);
  std::vector<TableFile> files;
  for (std::uint32_t number = 0; number < names.size(); ++number) {
    problems.clear();
    std::optional<TableFile> file = open_file(names[number], number, spec, hand, problems);
    for (const Diagnostic& problem : problems) {
      const ProblemNumber told = hand.problems.add(problem);
      if (!file && problem.severity == Severity::error) hand.lose(spec.table, told);
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

void read_tables(const BookInHand& hand) {
  for (const BookTable& table : book_tables()) {
    const std::vector<std::string>& files = hand.book.files.*table.files;
    if (table.is_required && files.empty()) report_missing(table, hand);
    table.read(open_files(files, *table.spec, hand), hand);
  }
  hand.book.lost_readings = hand.lost[readings_spec.table];
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
  for (auto& [row, number] : book.readings.problem) renumber(number);
}

}  // namespace

const HeadingMap& owners_headings(const Settings& settings, std::string_view table) {
  static const HeadingMap none;
  const auto found = settings.headings.find(std::string(table));
  return found == settings.headings.end() ? none : found->second;
}

std::string Book::place_text(const std::vector<std::string>& table_files, RowPlace place) const {
  return to_text(Place{table_files[place.file], place.line, 0});
}

Result<Book> read_book(const fs::path& folder, unsigned threads, const Advance& advance) {
  std::error_code ignored;
  if (!fs::is_directory(folder, ignored)) {
    return error("book/no-folder", {folder.string(), 0, 0},
                 fs::exists(folder, ignored) ? "this is a file and not a folder" : "there is no such folder",
                 "name the folder that holds book.toml");
  }
  Result<MappedFile> text = MappedFile::open(folder / "book.toml", "book.toml");
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
  for (const BookTable& table : book_tables()) book.files.*table.files = names_of_files(folder, table.name());
  ProblemList problems;
  SharedTexts texts(book.texts);
  std::map<std::string_view, ProblemNumber> lost;
  read_tables({book, problems, texts, std::max(threads, 1U), lost, advance});
  settle_problems(book, problems);
  return book;
}

}  // namespace driftwarden
