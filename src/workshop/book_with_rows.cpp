// SPDX-License-Identifier: MIT
#include "workshop/book_with_rows.hpp"

#include <algorithm>
#include <charconv>
#include <set>
#include <system_error>

#include "book/book_table.hpp"
#include "book/table_files.hpp"
#include "diagnostic/joined.hpp"
#include "outside/scratch_place.hpp"
#include "outside/whole_file.hpp"
#include "outside/write_fault.hpp"
#include "system/held_file.hpp"
#include "workshop/grown_table.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

bool is_link(const fs::path& path) {
  std::error_code ignored;
  return fs::is_symlink(fs::symlink_status(path, ignored));
}

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

// Whether such a file is there that no run was at work on, with another content: what somebody did to it by hand.
bool holds_other(const Book& before, const std::string& name, const RowsReceived& rows) {
  const Result<HeldFile> held = HeldFile::open(before.folder / name, name);
  return held && held->bytes() != rows.text() && !names_being_received(before.folder).contains(name);
}

// The name of a file for rows. One that is in the book already is left alone: the same rows may stand twice; so is one
// that received.csv does not name, and that is not as it was written.
std::string free_name(const Book& before, const std::vector<std::string>& given, const RowsReceived& rows, Day day) {
  const std::vector<std::string> of_book = files_of(before);
  const auto is_taken = [&](const std::string& name) {
    return std::find(of_book.begin(), of_book.end(), name) != of_book.end() ||
           std::find(given.begin(), given.end(), name) != given.end() || holds_other(before, name, rows);
  };
  std::string name = rows.name_on(day);
  while (is_taken(name)) name = rows.name_on(++day);
  return name;
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

Diagnostics write_files(const Book& book, const BookWithRows& with, const NewRows& lines,
                        const std::function<void()>& waits) {
  std::vector<Unfinished> written;  // gone again where they can't all be written
  for (std::size_t i = 0; i < with.files.size(); ++i) {
    const fs::path place = book.folder / with.files[i];
    if (Diagnostics faults = make_folder(place.parent_path()); !faults.empty()) return faults;
    if (Diagnostics faults = write_whole(place, with.rows[i].text()); !faults.empty()) return faults;
    written.emplace_back(place);
  }
  // From here on a run that is ended leaves them: what received.csv names by then must not be gone.
  for (Unfinished& file : written) file.keep();
  const Result<std::vector<Place>> places = append_rows(book, lines, waits);
  if (places) return {};
  std::error_code ignored;
  for (const std::string& file : with.files) fs::remove(book.folder / file, ignored);
  return places.faults();
}

}  // namespace

std::vector<const RowsReceived*> BookWithRows::came_in(const std::vector<std::string>& table_files) const {
  std::vector<const RowsReceived*> came;
  for (const std::string& file : table_files) {
    const auto found = std::find(files.begin(), files.end(), file);
    came.push_back(found == files.end() ? nullptr : &rows[static_cast<std::size_t>(found - files.begin())]);
  }
  return came;
}

std::set<std::pair<std::string, std::uint32_t>> BookWithRows::faulty_rows() const {
  std::set<std::pair<std::string, std::uint32_t>> faulty;
  for (const Diagnostic& problem : book.problems) {
    if (is_error(problem) && problem.id != "sample/twice") faulty.emplace(problem.place.file, problem.place.line);
  }
  return faulty;
}

Place BookWithRows::as_it_came(Place place) const {
  const RowsReceived* came = came_in({place.file}).front();
  return came == nullptr ? place : came->as_it_came(place);
}

std::string BookWithRows::as_it_came(std::string message) const {
  for (std::size_t i = 0; i < files.size(); ++i) {
    for (std::size_t at = message.find(files[i]); at != std::string::npos;) {
      Place place{files[i], 0, 0};
      std::size_t end = at + files[i].size();
      if (end < message.size() && message[end] == ':') {
        const auto [rest, fault] = std::from_chars(&message[end + 1], message.data() + message.size(), place.line);
        if (fault == std::errc()) end = static_cast<std::size_t>(rest - message.data());
      }
      const std::string text = to_text(as_it_came(place));
      message.replace(at, end - at, text);
      at = message.find(files[i], at + text.size());
    }
  }
  return message;
}

Result<BookWithRows> book_with_rows(const Book& before, std::vector<RowsReceived> rows, Day day, unsigned threads) {
  if (is_link(before.folder / receiving_note)) {
    return error("receive/link", {std::string(receiving_note), 0, 0},
                 "this is a link, and what it leads to would be written over",
                 "delete it: receive makes a file of this name, and no link");
  }
  const ScratchPlace scratch;
  if (scratch.path().empty()) return scratch.fault();
  std::set<std::string> tables{std::string(received_spec.table)};
  for (const RowsReceived& each : rows) tables.insert(std::string(each.spec->table));
  if (const std::error_code failure = link_all(before.folder, scratch.path(), tables))
    return unwritable(scratch.path(), failure.value());
  BookWithRows with;
  std::string receipts = heading_line(received_spec);
  const auto put = [&](const std::string& file, const std::string& text) -> std::optional<Diagnostic> {
    std::error_code failure;
    fs::create_directories((scratch.path() / file).parent_path(), failure);
    fs::remove(scratch.path() / file, failure);  // a link to what a run left that was ended
    if (const int reason = write_new(scratch.path() / file, text); reason != 0)
      return unwritable(scratch.path() / file, reason);
    return std::nullopt;
  };
  for (const RowsReceived& each : rows) {
    with.files.push_back(free_name(before, with.files, each, day));
    if (auto fault = put(with.files.back(), each.text())) return *std::move(fault);
    Receipt receipt;
    receipt.received = 0;
    receipt.by = "this run";
    receipt.file = with.files.back();
    receipts += joined(cells_of(receipt, TimeZone::utc()), ",") + '\n';
  }
  if (auto fault = put(std::string(received_spec.table) + "/incoming.csv", receipts)) return *std::move(fault);
  Result<Book> book = read_book(scratch.path(), threads);
  if (!book) return book.faults();
  with.book = *std::move(book);
  with.book.folder = before.folder;
  with.rows = std::move(rows);
  return with;
}

Diagnostics write_received(const Book& book, const BookWithRows& with, const std::vector<Receipt>& receipts,
                           const std::function<void()>& waits) {
  const std::set<std::string> left = left_unfinished(book);
  std::set<std::string> names = left;
  NewRows lines{received_spec, book.files.received, {}};
  names.insert(with.files.begin(), with.files.end());
  for (const Receipt& receipt : receipts) lines.cells.push_back(cells_of(receipt, book.settings.zone));
  if (Diagnostics faults = write_whole(book.folder / receiving_note, text_of(names)); !faults.empty()) return faults;
  const Diagnostics faults = write_files(book, with, lines, waits);
  // Where this fails the note stays, and says nothing wrong.
  std::error_code ignored;
  if (left.empty()) fs::remove(book.folder / receiving_note, ignored);
  return faults;
}

}  // namespace driftwarden
