// SPDX-License-Identifier: MIT
#include <array>

#include "book/row_blocks.hpp"
#include "book/table_files.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

enum Field : int { calibrator, before, pooled_s, degrees_of_freedom };
constexpr std::array<FieldSpec, 4> fields{{
    {calibrator, "calibrator", CellType::text, Dimension::count, true},
    {before, "before", CellType::moment, Dimension::count, true},
    {pooled_s, "s", CellType::text, Dimension::count, true},
    {degrees_of_freedom, "degrees of freedom", CellType::text, Dimension::count, true},
}};
static_assert(are_complete(fields, degrees_of_freedom));

// The program wrote it, with a point whatever the book's decimal sign.
double figure(RowReader& row, int field) {
  const std::string_view written = row.text(field);
  const double number = number_from(written).value_or(missing);
  if (number >= 0) return number;
  row.fail(field, "pooled/no-figure", in_quotes(written) + " is no such figure", "split the book again");
  return missing;
}

}  // namespace

const TableSpec pooled_spec{"pooled", fields};

void read_pooled(const std::vector<TableFile>& files, const BookInHand& hand) {
  const InstrumentIndex instruments = index_of_instruments(hand.book.instruments);
  NamedInstrument calibrators(instruments, hand, InstrumentKind::calibrator);
  for (const TableFile& file : files) {
    RowReader reader(hand.context(file, pooled_spec));
    const auto worker = [&](const CsvScanner& scanner, Row, std::uint32_t line) {
      reader.start(scanner, line);
      HandedScatter handed;
      handed.calibrator = calibrators.find(reader.text(calibrator), reader, calibrator, "pooled/unknown-calibrator");
      handed.before = reader.moment(before);
      handed.s = figure(reader, pooled_s);
      handed.dof = figure(reader, degrees_of_freedom);
      if (reader.problem() == no_problem) hand.book.handed_scatter.push_back(handed);
    };
    read_rows_in_order(file, worker);
  }
}

}  // namespace driftwarden
