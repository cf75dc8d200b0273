// SPDX-License-Identifier: MIT
#include <array>

#include "book/row_blocks.hpp"
#include "book/table_files.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

enum Field : int { serviced, instrument, what, by, note };
constexpr std::array<FieldSpec, 5> fields{{
    {serviced, "serviced", CellType::moment, Dimension::count, true},
    {instrument, "instrument", CellType::text, Dimension::count, true},
    {what, "what", CellType::text, Dimension::count, true},
    {by, "by"},
    {note, "note"},
}};
static_assert(are_complete(fields, note));

class ServiceRows {
 public:
  ServiceRows(const TableFile& file, const BookInHand& hand, const InstrumentIndex& instruments)
      : file_(file), hand_(hand), instruments_(instruments), row_(hand.context(file, service_spec)) {}

  void operator()(const CsvScanner& scanner, Row, std::uint32_t line) {
    row_.start(scanner, line);
    Service next;
    next.place = {file_.number, line};
    next.serviced = row_.moment(serviced);
    next.instrument = named_instrument(instruments_, hand_, row_, instrument, "service/unknown-instrument");
    next.what = row_.kept_text(what);
    next.by = row_.kept_text(by);
    next.note = row_.note(note);
    // A service that can't be understood cuts no history.
    if (row_.problem() == no_problem) hand_.book.services.push_back(std::move(next));
  }

 private:
  const TableFile& file_;
  const BookInHand& hand_;
  const InstrumentIndex& instruments_;
  RowReader row_;
};

}  // namespace

const TableSpec service_spec{"service", fields};

void read_service(const std::vector<TableFile>& files, const BookInHand& hand) {
  const InstrumentIndex instruments = index_of_instruments(hand.book.instruments);
  for (const TableFile& file : files) read_rows_in_order(file, ServiceRows(file, hand, instruments));
}

}  // namespace driftwarden
