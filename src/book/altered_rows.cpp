// SPDX-License-Identifier: MIT
#include "book/altered_rows.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "book/reread_file.hpp"
#include "book/rows_received.hpp"
#include "book/table_files.hpp"

namespace driftwarden {
namespace {

// How many rows of each file are read.
template <class Table>
std::map<std::string_view, std::size_t> rows_read(const std::vector<std::string>& files, const Table& table) {
  std::map<std::string_view, std::size_t> count;
  for (Row row = 0; row < table.size(); ++row) ++count[files[table.place[row].file]];
  return count;
}

}  // namespace

Diagnostics altered_rows(const Book& book) {
  Diagnostics altered;
  if (book.receipts.empty()) return altered;
  std::map<std::string_view, std::size_t> read = rows_read(book.files.samples, book.samples);
  read.merge(rows_read(book.files.readings, book.readings));
  for (const Receipt& receipt : book.receipts) {
    const std::string name = std::filesystem::path(receipt.file).filename().string();
    const std::optional<RereadFile> file = is_received_name(name) ? reread(book, receipt.file) : std::nullopt;
    if (!file) continue;
    const TableSpec& spec = receipt.file.starts_with(samples_spec.table) ? samples_spec : readings_spec;
    const std::string count = std::to_string(read[receipt.file]);
    if (!is_altered(name, file->bytes.bytes(), spec, file->layout)) {
      if (!receipt.rows.empty() && receipt.rows != count)
        altered.push_back(remark("receive/altered", {receipt.file, 0, 0},
                                 "of " + receipt.rows + " rows that were received " + count + " are read",
                                 "what book.toml says under [files] of such a file leaves rows out: say so of other "
                                 "files only"));
      continue;
    }
    altered.push_back(remark(
        "receive/altered", {receipt.file, 0, 0},
        "its rows are no longer those that were received " + local_text(receipt.received, book.settings.zone) + " by " +
            receipt.by + " from " + in_quotes(receipt.from),
        &spec == &readings_spec ? "hold it against that file; a reading that is wrong stays, with yes under void "
                                  "and the reason under note, and another stands beside it"
                                : "hold it against that file; what was changed and why belongs under note"));
  }
  return altered;
}

}  // namespace driftwarden
