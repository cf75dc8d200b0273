// SPDX-License-Identifier: MIT
#include <array>

#include "book/table_files.hpp"
#include "driftwarden/book/row_blocks.hpp"

namespace driftwarden {
namespace {

enum Field : int { decided, by, subject, rule, ruling, reason };
constexpr std::array<FieldSpec, 6> fields{{
    {"decided", CellType::moment, Dimension::count, true},
    {"by", CellType::text, Dimension::count, true},
    {"subject", CellType::text, Dimension::count, true},
    {"rule", CellType::text, Dimension::count, true},
    {"ruling", CellType::word, Dimension::count, true},
    {"reason", CellType::text, Dimension::count, true},
}};
constexpr std::array<std::string_view, 2> rulings{"uphold", "overrule"};

}  // namespace

const TableSpec decisions_spec{"decisions", fields};

void read_decisions(const std::vector<TableFile>& files, const BookInHand& hand) {
  for (const TableFile& file : files) {
    RowReader row(hand.context(file, decisions_spec));
    const auto worker = [&](const CsvScanner& scanner, Row, std::uint32_t line) {
      row.start(scanner, line);
      Decision next;
      next.place = {file.number, line};
      next.decided = row.moment(decided);
      next.by = row.text(by);
      next.subject = row.text(subject);
      next.rule = row.text(rule);
      const int word = row.word(ruling, rulings);
      if (word >= 0) next.ruling = static_cast<Ruling>(word);
      next.reason = row.text(reason);
      // A decision that can't be understood decides nothing.
      if (row.problem() == no_problem) hand.book.decisions.push_back(std::move(next));
    };
    RowPlaces unused;
    read_rows_in_order(file.bytes, file.layout, file.number, 0, worker, unused);
  }
}

}  // namespace driftwarden
