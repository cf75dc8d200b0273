// SPDX-License-Identifier: MIT
#include <array>
#include <cstring>

#include "book/row_blocks.hpp"
#include "book/table_files.hpp"
#include "quantity/number.hpp"

namespace driftwarden {
namespace {

enum Field : int {
  sample,
  batch,
  kind,
  pump,
  sampler,
  nominal,
  method,
  analysis,
  medium,
  started,
  stopped,
  paused,
  warm_up,
  vacuum,
  leak,
  interruptions,
  pressure_drop,
  pulsation,
  temperature,
  pressure,
  fault,
  by,
  note
};
using D = Dimension;
constexpr double most_minutes = 1e6;
constexpr std::array<FieldSpec, 23> fields{{
    {sample, "sample", CellType::text, D::count, true},
    {batch, "batch"},
    {kind, "kind", CellType::word},
    {pump, "pump", CellType::text},
    {sampler, "sampler"},
    {nominal, "nominal", CellType::quantity, D::flow, false, 0, 1e5},
    {method, "method"},
    {analysis, "analysis"},
    kept_only(medium, "medium"),
    {started, "started", CellType::moment},
    {stopped, "stopped", CellType::moment},
    {paused, "paused", CellType::quantity, D::time, false, 0, most_minutes},
    {warm_up, "warm-up", CellType::quantity, D::time, false, 0, most_minutes},
    {vacuum, "vacuum", CellType::quantity, D::pressure, false, 0, 110},
    {leak, "leak", CellType::quantity, D::flow, false, 0, 1000},
    {interruptions, "interruptions", CellType::number, D::count, false, 0, 1e5},
    {pressure_drop, "pressure drop", CellType::quantity, D::pressure, false, 0, 110},
    {pulsation, "pulsation", CellType::quantity, D::ratio, false, 0, 10},
    {temperature, "temperature", CellType::quantity, D::temperature, false, 180, 400},
    {pressure, "pressure", CellType::quantity, D::pressure, false, 10, 200},
    {fault, "fault", CellType::word},
    kept_only(by, "by"),
    kept_only(note, "note"),
}};
static_assert(are_complete(fields, note));

// Names of samples, kept for the table; one a thread.
class NameText {
 public:
  std::string_view keep(std::string_view name) {
    if (name.size() > left_) {
      left_ = std::max(name.size(), piece_);
      pieces_.emplace_back().reserve(left_);
      next_ = pieces_.back().data();
      piece_ = std::min(2 * piece_, largest);
    }
    std::memcpy(next_, name.data(), name.size());
    const std::string_view kept(next_, name.size());
    next_ += name.size();
    left_ -= name.size();
    return kept;
  }
  std::vector<Column<char>>& pieces() { return pieces_; }

 private:
  static constexpr std::size_t largest = 4 * Pages::huge_page;
  std::vector<Column<char>> pieces_;
  std::size_t piece_ = std::size_t{64} << 10;
  char* next_ = nullptr;
  std::size_t left_ = 0;
};

class SampleRows {
 public:
  SampleRows(const TableFile& file, const BookInHand& hand, const InstrumentIndex& instruments)
      : instruments_(hand.book.instruments),
        table_(hand.book.samples),
        pumps_(instruments, hand, InstrumentKind::pump),
        row_(hand.context(file, samples_spec)),
        file_(file) {}

  void operator()(const CsvScanner& scanner, Row row, std::uint32_t line) {
    row_.start(scanner, line);
    const std::string_view written = row_.kept_text(sample);
    table_.name[row] = written.empty() ? names_.keep(stand_in(line)) : names_.keep(written);
    const int kind_word = row_.word(kind, sample_kind_words);
    table_.kind[row] = kind_word < 0 ? SampleKind::sample : static_cast<SampleKind>(kind_word);
    const bool is_blank = table_.kind[row] == SampleKind::blank;
    table_.batch.put(row, row_.interned(batch));
    table_.pump[row] = read_pump(is_blank);
    table_.sampler.put(row, row_.interned(sampler));
    table_.nominal_l_min.put(row, row_.quantity(nominal));
    table_.method.put(row, row_.interned(method));
    table_.analysis.put(row, row_.interned(analysis));
    table_.medium.put(row, row_.interned(medium));
    read_times(row, is_blank);
    read_pauses(row);
    table_.warm_up_min.put(row, row_.quantity(warm_up));
    table_.vacuum_kpa.put(row, row_.quantity(vacuum));
    table_.leak_l_min.put(row, row_.quantity(leak));
    table_.interruptions.put(
        row, row_.whole_number(interruptions, "sample/interruptions", "write how often it was interrupted"));
    table_.pressure_drop_kpa.put(row, row_.quantity(pressure_drop));
    table_.pulsation.put(row, row_.quantity(pulsation));
    table_.temperature_k.put(row, row_.quantity(temperature));
    table_.pressure_kpa.put(row, row_.quantity(pressure));
    table_.fault.put(row, row_.yes_no(fault));
    table_.by.put(row, row_.interned(by));
    table_.note.put(row, row_.interned_note(note));
    table_.problem[row] = row_.problem();
  }

  NameText& names() { return names_; }

 private:
  // A name for a sample without one, unlike all others.
  std::string stand_in(std::uint32_t line) const { return "(" + file_.name + ":" + std::to_string(line) + ")"; }

  Row read_pump(bool is_blank) {
    const std::string_view name = row_.text(pump);
    if (name.empty()) {
      if (!is_blank) row_.fail(pump, "sample/no-pump", "the sample has no pump", "name the pump, or set kind to blank");
      return no_row;
    }
    const Row found = pumps_.find(name, row_, pump, "sample/unknown-pump");
    if (found != no_row) row_.lean_on(instruments_[found].problem);
    return found;
  }

  void read_times(Row row, bool is_blank) {
    const Moment from = table_.started[row] = row_.moment(started);
    const Moment to = table_.stopped[row] = row_.moment(stopped);
    if (is_blank) return;
    for (const int f : {static_cast<int>(started), static_cast<int>(stopped)}) {
      if (row_.is_empty(f)) {
        row_.fail(f, "cell/empty",
                  "the cell under " + in_quotes(fields[static_cast<std::size_t>(f)].name) + " is empty",
                  "a sample needs its start and its stop; only a blank does without");
      }
    }
    if (from != no_moment && to != no_moment && to <= from) {
      row_.fail(stopped, "sample/stops-before-start",
                "the sample stops at " + in_quotes(row_.text(stopped)) + ", not after its start",
                "check the two times and their dates");
    }
  }

  void read_pauses(Row row) {
    const double minutes = row_.quantity(paused);
    table_.paused_min.put(row, minutes);
    const Moment from = table_.started[row];
    const Moment to = table_.stopped[row];
    if (from == no_moment || to == no_moment || to <= from || !(minutes * 60 > static_cast<double>(to - from))) return;
    row_.fail(paused, "sample/paused-too-long",
              "the sample stood still for longer than the " + shortest(static_cast<double>(to - from) / 60) +
                  " min from its start to its stop",
              "check the pauses and the two times");
  }

  const std::vector<Instrument>& instruments_;
  SampleTable& table_;
  NamedInstrument pumps_;
  RowReader row_;
  const TableFile& file_;
  NameText names_;
};

// f(column, field number or -1 for a column that is always kept)
template <class F>
void for_each_column(SampleTable& table, F f) {
  f(table.name, -1);
  f(table.kind, -1);
  f(table.batch, batch);
  f(table.pump, -1);
  f(table.sampler, sampler);
  f(table.nominal_l_min, nominal);
  f(table.method, method);
  f(table.analysis, analysis);
  f(table.medium, medium);
  f(table.started, -1);
  f(table.stopped, -1);
  f(table.paused_min, paused);
  f(table.warm_up_min, warm_up);
  f(table.vacuum_kpa, vacuum);
  f(table.leak_l_min, leak);
  f(table.interruptions, interruptions);
  f(table.pressure_drop_kpa, pressure_drop);
  f(table.pulsation, pulsation);
  f(table.temperature_k, temperature);
  f(table.pressure_kpa, pressure);
  f(table.fault, fault);
  f(table.by, by);
  f(table.note, note);
  f(table.problem, -1);
}

std::size_t read_file(const TableFile& file, const BookInHand& hand, const InstrumentIndex& pumps, Row first_row,
                      TableProgress& progress) {
  SampleTable& table = hand.book.samples;
  std::vector<std::unique_ptr<SampleRows>> workers;
  for (unsigned t = 0; t < hand.threads; ++t) workers.push_back(std::make_unique<SampleRows>(file, hand, pumps));
  const std::size_t mark = hand.problems.mark();
  std::size_t rows = 0;
  if (read_rows_in_blocks(file.bytes, file.layout, first_row, workers, rows,
                          [&progress](std::size_t bytes) { progress.pass(bytes); })) {
    table.place.start(first_row, {file.number, file.layout.first_line});
  } else {
    hand.problems.back_to(mark);
    make_room(file, first_row, [&](auto f) { for_each_column(table, [&](auto& column, int) { f(column); }); });
    rows = read_rows_in_order(file.bytes, file.layout, file.number, first_row, *workers[0], table.place);
  }
  for (const auto& worker : workers) {
    for (auto& piece : worker->names().pieces()) table.name_text.push_back(std::move(piece));
  }
  return rows;
}

}  // namespace

const TableSpec samples_spec{"samples", fields};

void read_samples(const std::vector<TableFile>& files, const BookInHand& hand) {
  SampleTable& table = hand.book.samples;
  std::size_t most = 0;
  for (const TableFile& file : files) most += most_rows(file.bytes, file.layout);
  for_each_column(table, [&](auto& column, int f) {
    if (f < 0 || someone_wrote(files, f, note)) column.reserve(most);
  });
  const InstrumentIndex pumps = index_of_instruments(hand.book.instruments);
  std::size_t rows = 0;
  TableProgress progress(hand.advance, "reading samples", files);
  for (const TableFile& file : files) rows += read_file(file, hand, pumps, static_cast<Row>(rows), progress);
  table.rows = rows;
  for_each_column(table, [rows](auto& column, int) { column.set_size(column.capacity() == 0 ? 0 : rows); });
}

}  // namespace driftwarden
