// SPDX-License-Identifier: MIT
#include "book/altered_rows.hpp"

#include <algorithm>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "book/reread_file.hpp"
#include "book/rows_received.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

// What is amiss with how the rows of an unaltered file are read by now, and what to do; "" where nothing is.
struct ReadOtherwise {
  std::string what;
  std::string hint;
};
ReadOtherwise read_otherwise(const Receipt& receipt, const RowsOfFile& now, const TimeZone& zone) {
  const auto span = [&zone](Moment first, Moment last) {
    return local_text(first, zone) + " to " + local_text(last, zone);
  };
  const std::string rows = std::to_string(now.rows);
  if (!receipt.rows.empty() && receipt.rows != rows)
    return {"of " + receipt.rows + " rows that were received " + rows + " are read",
            "what book.toml says under [files] of such a file leaves rows out: say so of other files only"};
  if (receipt.struck_out > static_cast<double>(now.struck_out))
    return {"of the rows that were received " + shortest(receipt.struck_out) + " came struck out, and " +
                std::to_string(now.struck_out) + " are by now",
            "write yes under void again; what was read in its place stands in a row of its own"};
  if (receipt.first != no_moment && (receipt.first != now.first || receipt.last != now.last))
    return {"its times were " + span(receipt.first, receipt.last) + " when it was received, and are " +
                span(now.first, now.last) + " by now",
            "book.toml says otherwise in which time zone or order of day and month they are written: say so of other "
            "files only"};
  return {};
}

}  // namespace

void RowsOfFile::take(Moment moment) {
  if (moment == no_moment) return;
  first = first == no_moment ? moment : std::min(first, moment);
  last = last == no_moment ? moment : std::max(last, moment);
}

std::map<std::string_view, RowsOfFile> rows_of_files(const Book& book) {
  std::map<std::string_view, RowsOfFile> all;
  for (Row row = 0; row < book.samples.size(); ++row) {
    RowsOfFile& of = all[book.files.samples[book.samples.place[row].file]];
    ++of.rows;
    of.take(book.samples.started[row]);
    of.take(book.samples.stopped[row]);
  }
  for (Row row = 0; row < book.readings.size(); ++row) {
    RowsOfFile& of = all[book.files.readings[book.readings.place[row].file]];
    ++of.rows;
    if (book.readings.is_void(row)) ++of.struck_out;
    of.take(book.readings.taken[row]);
  }
  return all;
}

Diagnostics altered_rows(const Book& book) {
  Diagnostics altered;
  if (book.receipts.empty()) return altered;
  std::map<std::string_view, RowsOfFile> read = rows_of_files(book);
  for (const Receipt& receipt : book.receipts) {
    const std::string name = std::filesystem::path(receipt.file).filename().string();
    const std::optional<RereadFile> file = is_received_name(name) ? reread(book, receipt.file) : std::nullopt;
    if (!file) continue;
    const TableSpec& spec = receipt.file.starts_with(samples_spec.table) ? samples_spec : readings_spec;
    if (!is_altered(name, file->bytes.bytes(), spec, file->layout)) {
      const ReadOtherwise other = read_otherwise(receipt, read[receipt.file], book.settings.zone);
      if (!other.what.empty())
        altered.push_back(remark("receive/altered", {receipt.file, 0, 0}, other.what, other.hint));
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
