// SPDX-License-Identifier: MIT
#include <array>

#include "book/row_blocks.hpp"
#include "book/table_files.hpp"
#include "diagnostic/suggestion.hpp"
#include "record/sample.hpp"

namespace driftwarden {
namespace {

enum CheckField : int { check_made, check_of, check_against, check_shown, check_reference, check_by, check_note };
constexpr std::array<Dimension, 3> conditions_checked{Dimension::temperature, Dimension::pressure, Dimension::mass};
constexpr std::array<FieldSpec, 7> check_fields{{
    {check_made, "checked", CellType::moment, Dimension::count, true},
    {check_of, "instrument", CellType::text, Dimension::count, true},
    {check_against, "against", CellType::text, Dimension::count, true},
    {check_shown, "shown", CellType::quantity, Dimension::flow, true, 0, 1e5, conditions_checked},
    {check_reference, "reference", CellType::quantity, Dimension::flow, true, 0, 1e5, conditions_checked},
    {check_by, "by"},
    {check_note, "note"},
}};
static_assert(are_complete(check_fields, check_note));
constexpr const char* unknown_checked = "check/unknown-instrument";

class CheckRows {
 public:
  CheckRows(const TableFile& file, const BookInHand& hand, const InstrumentIndex& instruments)
      : file_(file), hand_(hand), instruments_(instruments), row_(hand.context(file, checks_spec)) {}

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    row_.start(scanner, line);
    BenchCheck next;
    next.place = {file_.number, line};
    next.checked = row_.moment(check_made);
    next.instrument = named_instrument(instruments_, hand_, row_, check_of, unknown_checked);
    next.against = named_instrument(instruments_, hand_, row_, check_against, unknown_checked);
    next.shown = read_figure(check_shown, next.instrument);
    next.reference = read_figure(check_reference, next.instrument);
    if (next.reference == 0)
      row_.fail(check_reference, "check/zero", "a reference of 0 holds nothing", "write what it was");
    next.by = row_.kept_text(check_by);
    next.note = row_.note(check_note);
    // A check that can't be understood is no point of a history.
    if (row_.problem() == no_problem) hand_.book.checks.push_back(std::move(next));
  }

 private:
  // What the instrument measures, in the unit of the file's column.
  double read_figure(CheckField field, Row of) {
    const double figure = row_.quantity(field);
    if (of == no_row || is_missing(figure)) return figure;
    const Instrument& checked_one = hand_.book.instruments[of];
    const Dimension measured = dimension_of_points(checked_one.kind);
    const Dimension written = file_.layout.unit_of_field[static_cast<std::size_t>(field)].dimension;
    if (written == measured) return figure;
    row_.fail(field, "check/quantity",
              in_quotes(checked_one.name) + " is a " + std::string(to_text(checked_one.kind)) + ", which shows a " +
                  std::string(to_text(measured)) + " and no " + std::string(to_text(written)),
              "keep its checks in a file of their own, checks/NAME.csv, with a heading in such a unit");
    return missing;
  }

  const TableFile& file_;
  const BookInHand& hand_;
  const InstrumentIndex& instruments_;
  RowReader row_;
};

}  // namespace

const TableSpec checks_spec{"checks", check_fields};

void read_checks(const std::vector<TableFile>& files, const BookInHand& hand) {
  const InstrumentIndex instruments = index_of_instruments(hand.book.instruments);
  for (const TableFile& file : files) read_rows_in_order(file, CheckRows(file, hand, instruments));
}

}  // namespace driftwarden
