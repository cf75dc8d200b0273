// SPDX-License-Identifier: MIT
#include "workshop/grown_table.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string>
#include <system_error>

#include "book/book_table.hpp"
#include "book/csv_scanner.hpp"
#include "book/table_files.hpp"
#include "diagnostic/characters.hpp"
#include "outside/file_lock.hpp"
#include "outside/unfinished.hpp"
#include "outside/whole_file.hpp"

namespace driftwarden {
namespace {

std::string file_of(const TableSpec& spec) { return std::string(spec.table) + ".csv"; }

Diagnostic table_unwritable(const TableSpec& spec, int reason) {
  return error("table/unwritable", {file_of(spec), 0, 0},
               "nothing could be added to it: " + std::generic_category().message(reason),
               "check the file, its rights and the room on the disk");
}

// All of a regular file, and `padding` zero bytes behind it for the scanner. Nothing, and errno, where it can't be
// read.
constexpr std::size_t padding = 64;
std::optional<std::string> padded_text(int number) {
  struct stat status {};
  if (::fstat(number, &status) != 0) return std::nullopt;
  if (!S_ISREG(status.st_mode)) return errno = EINVAL, std::nullopt;
  const auto size = static_cast<std::size_t>(status.st_size);
  std::string text(size + padding, '\0');
  for (std::size_t got = 0; got < size;) {
    const ssize_t count = ::pread(number, text.data() + got, size - got, static_cast<off_t>(got));
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return errno = count == 0 ? EIO : errno, std::nullopt;
    got += static_cast<std::size_t>(count);
  }
  return text;
}

// A quote that is open at the end of the file would swallow the new rows.
std::optional<Diagnostic> open_quote_in(std::string_view text, const TableLayout& layout, const std::string& file) {
  CsvScanner scanner(text.substr(layout.rows_begin), layout.separator);
  std::uint32_t line = layout.first_line;
  while (scanner.next()) {
    if (scanner.fault() == CsvFault::open_quote) return csv_fault(scanner, file, line);
    line += 1 + scanner.extra_lines();
  }
  return std::nullopt;
}

std::string_view line_end_of(std::string_view text, const TableLayout& layout) {
  return text.substr(0, layout.rows_begin).ends_with("\r\n") ? "\r\n" : "\n";
}

void append_cell(std::string& row, std::string_view text, char separator) {
  const std::string special = std::string("\"\r\n") + separator;
  if (text.find_first_of(special) == std::string_view::npos) {
    row += text;
  } else {
    append_in_csv_quotes(row, text);
  }
}

// Takes back what was appended, unless somebody without our lock has written behind it.
void take_back(int number, std::size_t size_before, std::size_t appended) {
  struct stat status {};
  const auto end = static_cast<off_t>(size_before + appended);
  if (::fstat(number, &status) != 0 || status.st_size != end) return;
  if (::ftruncate(number, static_cast<off_t>(size_before)) == 0) ::fsync(number);
}

// In one go and on the disk, or not at all.
bool is_appended(int number, std::size_t size_before, std::string_view text) {
  ssize_t count = 0;
  do {
    count = ::write(number, text.data(), text.size());
  } while (count < 0 && errno == EINTR);
  const bool is_whole = count == static_cast<ssize_t>(text.size());
  if (is_whole && ::fsync(number) == 0) return true;
  const int reason = is_whole || count < 0 ? errno : ENOSPC;
  if (count > 0) take_back(number, size_before, static_cast<std::size_t>(count));
  return errno = reason, false;
}

// Puts one file in the place of none; EEXIST where there is one by now.
int put_where_nothing_is(const std::filesystem::path& from, const std::filesystem::path& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return 0;
  if (errno != EINVAL && errno != ENOSYS) return errno;
  return ::link(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

// The table's first text, headings and rows, all at once: without headings it is none that can be read. Its lock is
// held meanwhile. The reason for which not, or 0; EEXIST where somebody else was quicker.
int begin_table(const std::filesystem::path& path, std::string_view text) {
  { const Unfinished of_a_killed_process_of_this_number(unfinished_beside(path)); }
  const Unfinished beside(unfinished_beside(path));
  const Descriptor file(::open(beside.path().c_str(), O_RDWR | O_APPEND | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
  if (file.number() < 0 || !is_locked(file.number()) || !is_appended(file.number(), 0, text)) return errno;
  if (const int reason = put_where_nothing_is(beside.path(), path); reason != 0) return reason;
  const int reason = brought_to_disk(path.parent_path().empty() ? "." : path.parent_path());
  if (reason != 0) ::unlink(path.c_str());
  return reason;
}

// A cell that says something, where the file has no column for it.
std::optional<Diagnostic> lost_cell(const NewRows& rows, const TableLayout& layout) {
  for (const std::vector<std::string>& cells : rows.cells) {
    for (std::size_t field = 0; field < cells.size(); ++field) {
      if (cells[field].empty() || layout.has(static_cast<int>(field))) continue;
      const std::string heading = in_quotes(heading_of(rows.spec.fields[field]));
      return error("table/no-column", {file_of(rows.spec), 1, 0}, "there is no column " + heading + " to write to",
                   "add " + heading + " to the heading line");
    }
  }
  return std::nullopt;
}

// What is to be appended to a file with this text, and the lines on which the rows will stand.
struct Addition {
  std::string text;
  std::vector<Place> places;
};
Result<Addition> addition_to(std::string_view text, const Book& book, const NewRows& rows) {
  const bool is_new = text.empty();
  const std::string headings = heading_line(rows.spec);
  const std::string fresh = headings + std::string(padding, '\0');
  if (is_new) text = std::string_view(fresh).substr(0, headings.size());
  Diagnostics problems;
  const std::string file = file_of(rows.spec);
  const HeadingMap& owners = owners_headings(book.settings, rows.spec.table);
  const std::optional<TableLayout> layout =
      read_layout({text, file}, rows.spec, is_new ? HeadingMap() : owners, problems);
  if (!layout) return problems;
  if (std::optional<Diagnostic> fault = open_quote_in(text, *layout, file)) return *std::move(fault);
  if (std::optional<Diagnostic> fault = lost_cell(rows, *layout)) return *std::move(fault);
  const std::string_view line_end = line_end_of(text, *layout);
  Addition addition;
  if (is_new) addition.text = headings;
  if (!text.ends_with('\n')) addition.text += line_end;
  auto line = static_cast<std::uint32_t>(1 + count_line_ends(text) + (text.ends_with('\n') ? 0U : 1U));
  for (const std::vector<std::string>& cells : rows.cells) {
    const std::string row = row_text(*layout, cells, line_end);
    addition.places.push_back({file, line, 0});
    addition.text += row;
    line += static_cast<std::uint32_t>(count_line_ends(row));
  }
  return addition;
}

}  // namespace

// A table that is a sheet would be there twice with a file of its own beside it.
std::optional<Diagnostic> kept_in_workbook(const NewRows& rows) {
  for (const std::string& source : rows.sources) {
    const auto [file, sheet] = split_sheet(source);
    const bool is_the_table = !file.starts_with(rows.spec.table) || file.find('/') == std::string_view::npos;
    if (sheet.empty() || !is_the_table) continue;
    return error("table/in-workbook", {source, 0, 0},
                 "the table " + std::string(rows.spec.table) + " is kept in a workbook, which is not written to",
                 "save its sheet as " + file_of(rows.spec) + ", and take it out of the workbook");
  }
  return std::nullopt;
}

std::string row_text(const TableLayout& layout, const std::vector<std::string>& cells, std::string_view line_end) {
  std::vector<std::string_view> columns(layout.columns);
  for (std::size_t field = 0; field < cells.size(); ++field) {
    if (layout.has(static_cast<int>(field)))
      columns[static_cast<std::size_t>(layout.column_of_field[field])] = cells[field];
  }
  std::string row;
  for (std::size_t column = 0; column < columns.size(); ++column) {
    if (column > 0) row += layout.separator;
    append_cell(row, columns[column], layout.separator);
  }
  return row + std::string(line_end);
}

Result<std::vector<Place>> append_rows(const Book& book, const NewRows& rows, const std::function<void()>& waits) {
  const std::filesystem::path path = book.folder / file_of(rows.spec);
  if (std::optional<Diagnostic> fault = kept_in_workbook(rows)) return *std::move(fault);
  for (;;) {
    const std::optional<Descriptor> file = locked_file(path, O_RDWR | O_APPEND, waits);
    std::error_code ignored;
    const bool is_none = !file && errno == ENOENT && !std::filesystem::is_symlink(path, ignored);
    if (!file && !is_none) return table_unwritable(rows.spec, errno == 0 ? ENOENT : errno);
    const std::optional<std::string> padded = is_none ? std::string(padding, '\0') : padded_text(file->number());
    if (!padded) return table_unwritable(rows.spec, errno);
    const std::string_view text = std::string_view(*padded).substr(0, padded->size() - padding);
    const Result<Addition> addition = addition_to(text, book, rows);
    if (!addition) return addition.faults();
    const int reason = is_none                                                    ? begin_table(path, addition->text)
                       : is_appended(file->number(), text.size(), addition->text) ? 0
                                                                                  : errno;
    if (reason == 0) return addition->places;
    if (!is_none || reason != EEXIST) return table_unwritable(rows.spec, reason);
  }
}

}  // namespace driftwarden
