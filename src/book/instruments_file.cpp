// SPDX-License-Identifier: MIT
#include <array>
#include <unordered_map>

#include "book/row_blocks.hpp"
#include "book/table_files.hpp"
#include "diagnostic/suggestion.hpp"
#include "record/moment.hpp"

namespace driftwarden {
namespace {

enum Field : int {
  instrument,
  kind,
  principle,
  serial,
  low,
  high,
  scale_temperature,
  scale_pressure,
  read_at,
  resolution,
  interval,
  in_service,
  out_of_service,
  compensates,
  permitted_use,
  note
};
using D = Dimension;
constexpr std::array<FieldSpec, 16> fields{{
    {instrument, "instrument", CellType::text, D::count, true},
    {kind, "kind", CellType::word, D::count, true},
    {principle, "principle", CellType::word},
    {serial, "serial"},
    {low, "low", CellType::quantity, D::flow, false, 0, 1e5},
    {high, "high", CellType::quantity, D::flow, false, 0, 1e5},
    {scale_temperature, "scale temperature", CellType::quantity, D::temperature, false, 180, 400},
    {scale_pressure, "scale pressure", CellType::quantity, D::pressure, false, 10, 200},
    {read_at, "read at", CellType::word},
    {resolution, "resolution", CellType::quantity, D::flow, false, 0, 1e5},
    {interval, "interval", CellType::quantity, D::time, false, 0, 1e8, {}, "d"},
    {in_service, "in service", CellType::date},
    {out_of_service, "out of service", CellType::date},
    {compensates, "compensates", CellType::word},
    {permitted_use, "permitted use", CellType::quantity, D::time, false, 0, 1e8, {}, "h"},
    {note, "note"},
}};
static_assert(are_complete(fields, note));
constexpr double minutes_an_hour = 60;

std::optional<double> optional(double figure) {
  return is_missing(figure) ? std::nullopt : std::optional<double>(figure);
}

Instrument read_row(RowReader& row, RowPlace place) {
  Instrument result;
  result.place = place;
  result.name = row.kept_text(instrument);
  const int kind_word = row.word(kind, instrument_kind_words);
  if (kind_word >= 0) result.kind = static_cast<InstrumentKind>(kind_word);
  const int principle_word = row.word(principle, principle_words);
  if (principle_word >= 0) result.principle = static_cast<Principle>(principle_word + 1);
  if (result.kind == InstrumentKind::calibrator && principle_word < 0 && row.text(principle).empty()) {
    row.fail(principle, "instrument/no-principle", "the calibrator " + in_quotes(result.name) + " has no principle",
             "write " + list_of(principle_words));
  }
  result.serial = row.kept_text(serial);
  result.low_l_min = optional(row.quantity(low));
  result.high_l_min = optional(row.quantity(high));
  if (const double t = row.quantity(scale_temperature); !is_missing(t)) result.scale_temperature = Temperature(t);
  if (const double p = row.quantity(scale_pressure); !is_missing(p)) result.scale_pressure = Pressure(p);
  const int read_at_word = row.word(read_at, read_at_words);
  if (read_at_word >= 0) result.read_at = static_cast<ReadAt>(read_at_word + 1);
  if (const double minutes = row.quantity(interval); !is_missing(minutes)) result.interval_d = minutes / minutes_a_day;
  if (const double minutes = row.quantity(permitted_use); !is_missing(minutes))
    result.permitted_use_h = minutes / minutes_an_hour;
  result.in_service = row.date(in_service);
  result.out_of_service = row.date(out_of_service);
  result.note = row.note(note);
  result.resolution_l_min = optional(row.quantity(resolution));
  if (const YesNo said = row.yes_no(compensates); said != YesNo::unsaid) result.compensates = said == YesNo::yes;
  return result;
}

void fail_twice(RowReader& row, const std::string& name, const std::string& first) {
  row.fail(instrument, "instrument/twice", "the instrument " + in_quotes(name) + " stands already in " + first,
           "keep one row for each instrument");
}

}  // namespace

const TableSpec instruments_spec{"instruments", fields};

void read_instruments(const std::vector<TableFile>& files, const BookInHand& hand) {
  std::vector<Instrument>& all = hand.book.instruments;
  std::unordered_map<std::string, std::size_t> known;
  for (const TableFile& file : files) {
    RowReader reader(hand.context(file, instruments_spec));
    const auto worker = [&](const CsvScanner& scanner, Row, std::uint32_t line) {
      reader.start(scanner, line);
      Instrument next = read_row(reader, {file.number, line});
      const auto [first, is_new] = known.try_emplace(next.name, all.size());
      if (!is_new && !next.name.empty()) {
        // Nobody can say which of the two rows is right.
        Instrument& other = all[first->second];
        fail_twice(reader, next.name, hand.book.place_text(hand.book.files.instruments, other.place));
        if (other.problem == no_problem) other.problem = reader.problem();
      }
      next.problem = reader.problem();
      all.push_back(std::move(next));
    };
    read_rows_in_order(file, worker);
  }
}

InstrumentIndex index_of_instruments(const std::vector<Instrument>& instruments) {
  InstrumentIndex index(instruments.size(), InstrumentNames{&instruments});
  for (Row row = 0; row < instruments.size(); ++row) index.enter(row);
  return index;
}

Row NamedInstrument::look_up(std::string_view name, RowReader& row, int field, const char* id) const {
  Row found = index_.find(name);
  if (found == no_row && has_wide_blank(name)) found = index_.find(with_plain_blanks(name));
  if (found == no_row && lost_ != no_problem) {
    row.lean_on(lost_);
    return no_row;
  }
  // Where the instrument's own row has a fault, its kind may be that, and has been told.
  const bool is_one =
      found != no_row && (book_.instruments[found].kind == kind_ || book_.instruments[found].problem != no_problem);
  if (is_one) return found;
  const ProblemNumber told =
      row.fail(field, id, in_quotes(name) + " is not a " + std::string(to_text(kind_)) + " of instruments.csv",
               "add it to instruments.csv as a " + std::string(to_text(kind_)));
  problems_.add_unknown({told, std::string(name), kind_});
  return no_row;
}

Row named_instrument(const InstrumentIndex& instruments, const BookInHand& hand, RowReader& row, int field,
                     const char* id) {
  const std::string_view name = row.text(field);
  const Row found = instruments.find(name);
  if (found != no_row || name.empty()) return found;
  const ProblemNumber lost = hand.lost["instruments"];
  if (lost != no_problem) return row.lean_on(lost), no_row;
  const ProblemNumber told = row.fail(field, id, "the instrument " + in_quotes(name) + " is not in instruments.csv",
                                      "add it to instruments.csv");
  hand.problems.add_unknown({told, std::string(name), std::nullopt});
  return no_row;
}

void hint_at_instruments(const Book& book, ProblemList& problems) {
  std::map<std::optional<InstrumentKind>, std::set<std::string>> names;
  for (const ProblemList::Unknown& unknown : problems.unknown()) names[unknown.kind].insert(unknown.name);
  for (const auto& [kind, unknown_names] : names) {
    std::vector<std::string_view> known;
    for (const Instrument& one : book.instruments) {
      if (!kind || one.kind == *kind) known.push_back(one.name);
    }
    const std::map<std::string, std::string> meant = nearest_to_each(unknown_names, known);
    for (const ProblemList::Unknown& unknown : problems.unknown()) {
      const auto near = meant.find(unknown.name);
      if (unknown.kind == kind && near != meant.end() && !near->second.empty())
        problems.set_hint(unknown.problem, "did you mean " + in_quotes(near->second) + "?");
    }
  }
}

}  // namespace driftwarden
