// SPDX-License-Identifier: MIT
#include <array>

#include "book/row_blocks.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

enum ReceivedField : int {
  received_at,
  received_by,
  received_file,
  received_rows,
  received_form,
  received_from,
  received_digest,
  received_struck_out,
  received_first,
  received_last
};
constexpr std::array<FieldSpec, 10> received_fields{{
    {received_at, "received", CellType::moment, Dimension::count, true},
    {received_by, "by", CellType::text, Dimension::count, true},
    {received_file, "file", CellType::text, Dimension::count, true},
    {received_rows, "rows"},
    {received_form, "form"},
    {received_from, "from"},
    {received_digest, "sha256"},
    {received_struck_out, "struck out", CellType::number},
    {received_first, "first", CellType::moment},
    {received_last, "last", CellType::moment},
}};
static_assert(are_complete(received_fields, received_last));

// Rows that were received and are there no longer: what names them is in doubt.
void tell_if_gone(const std::string& file, RowReader& row, const BookInHand& hand) {
  if (file.empty() || hand.found.stamps.contains(file)) return;
  const ProblemNumber problem = row.fail(received_file, "receive/file-gone",
                                         "the file " + in_quotes(file) + " with rows that were received is not there",
                                         "put it back; or take this line out if its rows are not to count any more");
  hand.lose(file.starts_with("samples/") ? samples_spec.table : readings_spec.table, problem);
}

// A digest that was shortened, or typed, stands for no file.
void tell_if_no_digest(const std::string& digest, RowReader& row) {
  constexpr std::size_t digits = 64;
  if (digest.empty() || (digest.size() == digits && digest.find_first_not_of("0123456789abcdef") == std::string::npos))
    return;
  row.doubt(received_digest, "receive/digest", in_quotes(digest) + " is no SHA-256 of a file",
            "it has 64 digits, 0 to 9 and a to f, as 'sha256sum FILE' gives them");
}

}  // namespace

const TableSpec received_spec{"received", received_fields};

void read_received(const std::vector<TableFile>& files, const BookInHand& hand) {
  for (const TableFile& file : files) {
    RowReader row(hand.context(file, received_spec));
    const auto worker = [&](const CsvScanner& scanner, Row, std::uint32_t line) {
      row.start(scanner, line);
      Receipt next;
      next.place = {file.number, line};
      next.received = row.moment(received_at);
      next.by = row.kept_text(received_by);
      next.file = row.kept_text(received_file);
      next.rows = row.kept_text(received_rows);
      next.form = row.kept_text(received_form);
      next.from = row.kept_text(received_from);
      next.sha256 = row.kept_text(received_digest);
      next.struck_out = row.quantity(received_struck_out);
      next.first = row.moment(received_first);
      next.last = row.moment(received_last);
      tell_if_no_digest(next.sha256, row);
      tell_if_gone(next.file, row, hand);
      if (row.problem() == no_problem) hand.book.receipts.push_back(std::move(next));
    };
    read_rows_in_order(file, worker);
  }
}

std::vector<std::string> cells_of(const Receipt& receipt, const TimeZone& zone) {
  return {local_text(receipt.received, zone),
          receipt.by,
          receipt.file,
          receipt.rows,
          receipt.form,
          receipt.from,
          receipt.sha256,
          is_missing(receipt.struck_out) ? "" : shortest(receipt.struck_out),
          local_text(receipt.first, zone),
          local_text(receipt.last, zone)};
}

}  // namespace driftwarden
