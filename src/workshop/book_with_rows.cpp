// SPDX-License-Identifier: MIT
#include "workshop/book_with_rows.hpp"

#include <set>
#include <system_error>

#include "book/book_table.hpp"
#include "book/table_files.hpp"
#include "outside/scratch_place.hpp"
#include "outside/whole_file.hpp"
#include "outside/write_fault.hpp"
#include "workshop/grown_table.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

// Links to all that lies in a folder, but for folders of the tables that rows are added to: those are made anew.
std::error_code link_all(const fs::path& from, const fs::path& to, const std::set<std::string>& made_anew) {
  std::error_code fault;
  fs::directory_iterator entry(from, fault);
  for (; !fault && entry != fs::directory_iterator(); entry.increment(fault)) {
    const std::string name = entry->path().filename().string();
    std::error_code failure;
    if (made_anew.contains(name) && fs::is_directory(entry->path(), failure)) {
      fs::create_directory(to / name, failure);
      if (!failure) failure = link_all(entry->path(), to / name, {});
    } else {
      fs::create_symlink(fs::absolute(entry->path()), to / name, failure);
    }
    if (failure) return failure;
  }
  return fault;
}

// What runs that were ended have left, as far as it is there.
std::set<std::string> left_unfinished(const Book& book) {
  std::set<std::string> names = names_being_received(book.folder);
  for (const Receipt& receipt : book.receipts) names.erase(receipt.file);
  std::erase_if(names, [&book](const std::string& name) {
    std::error_code fault;
    return !fs::exists(book.folder / name, fault);
  });
  return names;
}

std::string text_of(const std::set<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += name + '\n';
  return text;
}

Diagnostics write_files(const Book& book, const std::vector<RowsReceived>& rows, const std::vector<Receipt>& receipts,
                        const NewRows& lines, const std::function<void()>& waits) {
  std::vector<Unfinished> written;  // gone again where they can't all be written
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const fs::path place = book.folder / receipts[i].file;
    if (Diagnostics faults = make_folder(place.parent_path()); !faults.empty()) return faults;
    if (Diagnostics faults = write_whole(place, rows[i].text); !faults.empty()) return faults;
    written.emplace_back(place);
  }
  // From here on a run that is ended leaves them: what received.csv names by then must not be gone.
  for (Unfinished& file : written) file.keep();
  const Result<std::vector<Place>> places = append_rows(book, lines, waits);
  if (places) return {};
  std::error_code ignored;
  for (const Receipt& receipt : receipts) fs::remove(book.folder / receipt.file, ignored);
  return places.faults();
}

}  // namespace

Result<BookWithRows> book_with_rows(const fs::path& folder, const std::vector<RowsReceived>& rows, unsigned threads) {
  const ScratchPlace scratch;
  if (scratch.path().empty()) return scratch.fault();
  std::set<std::string> tables;
  for (const RowsReceived& each : rows) tables.insert(std::string(each.spec->table));
  if (const std::error_code failure = link_all(folder, scratch.path(), tables))
    return unwritable(scratch.path(), failure.value());
  BookWithRows with;
  for (const RowsReceived& each : rows) {
    std::error_code failure;
    fs::create_directories(scratch.path() / each.spec->table, failure);
    with.files.push_back(std::string(each.spec->table) + "/incoming-" + std::to_string(with.files.size() + 1) + ".csv");
    const int reason = write_new(scratch.path() / with.files.back(), each.text);
    if (reason != 0) return unwritable(scratch.path() / with.files.back(), reason);
  }
  Result<Book> book = read_book(scratch.path(), threads);
  if (!book) return book.faults();
  with.book = *std::move(book);
  with.book.folder = folder;
  return with;
}

Diagnostics write_received(const Book& book, const std::vector<RowsReceived>& rows, std::vector<Receipt>& receipts,
                           const std::function<void()>& waits) {
  const std::set<std::string> left = left_unfinished(book);
  std::set<std::string> names = left;
  NewRows lines{received_spec, book.files.received, {}};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    receipts[i].file = rows[i].name_on(local_day(receipts[i].received, book.settings.zone));
    names.insert(receipts[i].file);
    lines.cells.push_back(cells_of(receipts[i], book.settings.zone));
  }
  if (Diagnostics faults = write_whole(book.folder / receiving_note, text_of(names)); !faults.empty()) return faults;
  const Diagnostics faults = write_files(book, rows, receipts, lines, waits);
  // Where this fails the note stays, and says nothing wrong.
  std::error_code ignored;
  if (left.empty()) fs::remove(book.folder / receiving_note, ignored);
  return faults;
}

}  // namespace driftwarden
