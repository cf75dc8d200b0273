// SPDX-License-Identifier: MIT
#include "book/altered_rows.hpp"

#include <filesystem>

#include "book/reread_file.hpp"
#include "book/rows_received.hpp"
#include "book/table_files.hpp"

namespace driftwarden {

Diagnostics altered_rows(const Book& book) {
  Diagnostics altered;
  for (const Receipt& receipt : book.receipts) {
    const std::string name = std::filesystem::path(receipt.file).filename().string();
    const std::optional<RereadFile> file = is_received_name(name) ? reread(book, receipt.file) : std::nullopt;
    if (!file) continue;
    const TableSpec& spec = receipt.file.starts_with(samples_spec.table) ? samples_spec : readings_spec;
    if (!is_altered(name, file->bytes.bytes(), spec, file->layout)) continue;
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
