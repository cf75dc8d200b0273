// SPDX-License-Identifier: MIT
#include "driftwarden/book/book.hpp"

#include <algorithm>
#include <system_error>

#include "book/table_files.hpp"
#include "driftwarden/diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// "readings.csv" and "readings/*.csv", in order of name, as named from the book's folder.
std::vector<std::string> files_of(const fs::path& folder, const std::string& table) {
  std::vector<std::string> names;
  std::error_code ignored;
  if (fs::exists(folder / (table + ".csv"), ignored)) names.push_back(table + ".csv");
  std::vector<std::string> inside;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder / table, ignored)) {
    if (entry.path().extension() == ".csv") inside.push_back(table + "/" + entry.path().filename().string());
  }
  std::sort(inside.begin(), inside.end());
  names.insert(names.end(), inside.begin(), inside.end());
  return names;
}

const HeadingMap& owners_headings(const Settings& settings, std::string_view table) {
  static const HeadingMap none;
  const auto found = settings.headings.find(std::string(table));
  return found == settings.headings.end() ? none : found->second;
}

std::vector<TableFile> open_files(const std::vector<std::string>& names, const TableSpec& spec, const BookInHand& hand) {
  std::vector<TableFile> files;
  for (std::uint32_t number = 0; number < names.size(); ++number) {
    Result<MappedFile> bytes = MappedFile::open(hand.book.folder / names[number], names[number]);
    if (!bytes) {
      hand.problems.add(bytes.faults());
      continue;
    }
    Diagnostics problems;
    std::optional<TableLayout> layout = read_layout(bytes->bytes(), names[number], spec,
                                                    owners_headings(hand.book.settings, spec.table), problems);
    hand.problems.add(problems);
    if (layout) files.push_back({names[number], number, *std::move(bytes), *std::move(layout)});
  }
  return files;
}

void report_missing_table(const std::vector<std::string>& files, const std::string& table, const BookInHand& hand) {
  if (files.empty()) {
    hand.problems.add(error("book/no-table", {table + ".csv", 0, 0}, "the book has no " + table + ".csv",
                            "add it; 'driftwarden new' shows its columns"));
  }
}

void read_tables(const BookInHand& hand) {
  const BookFiles& files = hand.book.files;
  report_missing_table(files.instruments, "instruments", hand);
  report_missing_table(files.samples, "samples", hand);
  report_missing_table(files.readings, "readings", hand);
  read_instruments(open_files(files.instruments, instruments_spec, hand), hand);
  read_certificates(open_files(files.certificates, certificates_spec, hand), hand);
  read_samples(open_files(files.samples, samples_spec, hand), hand);
  const std::size_t before = hand.problems.mark();
  const std::vector<TableFile> readings = open_files(files.readings, readings_spec, hand);
  if (readings.size() < files.readings.size()) hand.book.lost_readings = static_cast<ProblemNumber>(before + 1);
  read_readings(readings, hand);
  read_decisions(open_files(files.decisions, decisions_spec, hand), hand);
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

std::string Book::place_text(const std::vector<std::string>& table_files, RowPlace place) const {
  return to_text(Place{table_files[place.file], place.line, 0});
}

Result<Book> read_book(const fs::path& folder, unsigned threads) {
  std::error_code ignored;
  if (!fs::is_directory(folder, ignored)) {
    return error("book/no-folder", {folder.string(), 0, 0}, "there is no such folder", "name the folder that holds book.toml");
  }
  Result<MappedFile> text = MappedFile::open(folder / "book.toml", "book.toml");
  if (!text) {
    return error("book/no-settings", {(folder / "book.toml").string(), 0, 0}, "the folder has no book.toml that can be read",
                 "'driftwarden new' writes a sound one");
  }
  Result<Settings> settings = parse_settings(text->bytes(), "book.toml");
  if (!settings) return settings.faults();
  Book book{folder,
            std::string(text->bytes()),
            *std::move(settings),
            {files_of(folder, "instruments"), files_of(folder, "certificates"), files_of(folder, "samples"),
             files_of(folder, "readings"), files_of(folder, "decisions")},
            {}, {}, {}, {}, {}, {}, no_problem, {}};
  ProblemList problems;
  SharedTexts texts(book.texts);
  read_tables({book, problems, texts, std::max(threads, 1U)});
  settle_problems(book, problems);
  return book;
}

}  // namespace driftwarden
