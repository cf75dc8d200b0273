// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <mutex>
#include <utility>

#include "book/decimal_form.hpp"
#include "book/row_blocks.hpp"
#include "book/sample_names.hpp"
#include "book/short_text.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"

namespace driftwarden {
namespace {

enum Field : int {
  taken,
  stage,
  pump,
  sample,
  calibrator,
  reading,
  temperature,
  pressure,
  humidity,
  replicate,
  set,
  sampler,
  by,
  void_,
  note
};
using D = Dimension;
constexpr std::array<FieldSpec, 15> fields{{
    {taken, "taken", CellType::moment, D::count, true},
    {stage, "stage", CellType::word, D::count, true},
    {pump, "pump"},
    {sample, "sample"},
    {calibrator, "calibrator", CellType::text, D::count, true},
    {reading, "reading", CellType::quantity, D::flow, true, 0, 1e5},
    {temperature, "temperature", CellType::quantity, D::temperature, false, 180, 400},
    {pressure, "pressure", CellType::quantity, D::pressure, false, 10, 200},
    {humidity, "humidity", CellType::quantity, D::ratio, false, 0, 1},
    kept_only(replicate, "replicate"),
    {set, "set"},
    {sampler, "sampler"},
    {by, "by"},
    {void_, "void", CellType::word},
    kept_only(note, "note"),
}};
static_assert(are_complete(fields, note));

// What the readings name.
struct Known {
  SampleIndex samples;
  InstrumentIndex instruments;
};

class ReadingRows {
 public:
  ReadingRows(const TableFile& file, const BookInHand& hand, const Known& known, std::mutex& rejected)
      : book_(hand.book),
        table_(hand.book.readings),
        samples_(known.samples),
        lost_samples_(hand.lost["samples"]),
        pumps_(known.instruments, hand, InstrumentKind::pump),
        calibrators_(known.instruments, hand, InstrumentKind::calibrator),
        zone_(*file.manner.zone),
        rejected_(rejected),
        row_(hand.context(file, readings_spec)) {
    for (const KeptWords& words : {KeptWords{&table_.replicate, replicate}, KeptWords{&table_.set, set},
                                   KeptWords{&table_.sampler, sampler}, KeptWords{&table_.by, by}}) {
      if (words.column->capacity() > 0) kept_words_.push_back(words);
    }
  }

  void operator()(const CsvScanner& scanner, Row row, std::uint32_t line) {
    row_.start(scanner, line);
    table_.taken.put(row, row_.moment(taken));
    const int stage_word = row_.word(stage, stage_words);
    table_.stage[row] = stage_word < 0 ? Stage::field : static_cast<Stage>(stage_word);
    const Row of_sample = read_sample(row);
    const Row of_pump = read_pump(of_sample);
    if (has_sample_) table_.sample[row] = of_sample;
    if (has_pump_) table_.pump[row] = of_pump;
    table_.calibrator[row] = read_calibrator(row);
    const std::uint8_t is_void = read_void();
    if (is_void != 0) spare_conditions();
    if (is_void == 0 && of_sample != no_row && stage_word >= 0) hold_against_run(row, of_sample);
    read_indicated(row, is_void != 0);
    if (has_temperature_) read_condition(table_.temperature_k, row, temperature, last_temperature_);
    if (has_pressure_) read_condition(table_.pressure_kpa, row, pressure, last_pressure_);
    if (has_humidity_) read_humidity(row);
    read_words(row);
    table_.flags[row] = is_void;
    ++read_;
    if (row_.problem() != no_problem) reject(row, stage_word < 0);
  }

  // In books whose readings lie in any order, most time goes into waiting for the names of their samples. What holds
  // for one block will hold for the next.
  bool looks_ahead() const { return looks_ahead_; }
  void expect(const CsvScanner& row) {
    const std::string_view name = row_.raw_text_in(row, sample);
    const bool is_again = is_same_text(last_expected_, name);
    sought(0) = is_again ? SampleIndex::Sought{} : samples_.seek(name);
    samples_.seek_row(sought(rows_a_step));
    seek_run(sought(2 * rows_a_step));
    last_expected_ = name;
    ++expected_;
  }

  UnknownSamples& unknown_samples() { return unknown_samples_; }
  // Forgets the texts of the block before, and looks ahead where that one was in no order.
  void begin_block() {
    last_temperature_ = last_pressure_ = last_humidity_ = {};
    last_expected_ = {};
    read_ = expected_;
    constexpr std::size_t many = 1000;  // of the some 17,000 rows of a block
    looks_ahead_ = std::exchange(searched_, 0) > many;
  }

 private:
  [[gnu::always_inline]] void seek_run(const SampleIndex::Sought& sought) const {
    samples_.seek_name(sought);
    if (sought.row == no_row) return;
    __builtin_prefetch(&book_.samples.started[sought.row]);
    __builtin_prefetch(&book_.samples.stopped[sought.row]);
  }
  // Of a row so many before the one that was scanned last.
  SampleIndex::Sought& sought(std::size_t rows_before) {
    return sought_[(expected_ + sought_.size() - rows_before) % sought_.size()];
  }

  // A display that was blank, or beyond its range, gives no figure; struck out, it needs none.
  [[gnu::always_inline]] void read_indicated(Row row, bool is_void) {
    if (!is_void && row_.put_digits(reading, table_.indicated_l_min, row)) return;
    const RowReader::Quantity quantity = is_void ? row_.quantity_if_any(reading) : row_.quantity_as_written(reading);
    table_.indicated_l_min.put(row, quantity.inside, quantity.written);
  }

  // What was read before sampling can't have been read when it had ended, nor the other way round. One that was read
  // while the sample ran is a matter of how long: its age is a measure.
  [[gnu::always_inline]] void hold_against_run(Row row, Row of_sample) {
    if (run_.of != of_sample) run_ = run_of(of_sample);
    const Moment at = table_.taken[row];
    const Stage as = table_.stage[row];
    const bool is_in_order = at < run_.from ? as == Stage::pre : at <= run_.to || as == Stage::post;
    if (!is_in_order && run_.is_known && at != no_moment) tell_of_other_stage(at, as);
  }

  void tell_of_other_stage(Moment at, Stage as) {
    const std::string what =
        "the reading was taken " +
        std::string(at < run_.from ? "before its sample started" : "after its sample had stopped") +
        ", and is said to be of the stage " + in_quotes(to_text(as)) + ": the sample " +
        in_quotes(book_.samples.name[run_.of]) + " ran from " + local_text(run_.from, zone_) + " to " +
        local_text(run_.to, zone_);
    const std::string hint = "correct the time, the stage or the sample; or the sample's times";
    if (as == Stage::field) return row_.doubt(taken, "reading/not-during", what, hint);
    row_.fail(taken, "reading/not-its-stage", what, hint);
  }

  // From when to when a sample ran.
  struct Run {
    Row of = no_row;
    Moment from = no_moment;
    Moment to = no_moment;
    bool is_known = false;
  };
  Run run_of(Row sample) const {
    const Moment from = book_.samples.started[sample];
    const Moment to = book_.samples.stopped[sample];
    return {sample, from, to, from != no_moment && to != no_moment && to >= from};
  }

  // A reading that is struck out is not corrected.
  void spare_conditions() {
    for (const int field : {temperature, pressure, humidity}) row_.spare(field);
  }

  // A number as it was written in the row before.
  struct Written {
    std::string_view text;
    Row row = no_row;
  };
  // Conditions mostly are those of the row before.
  [[gnu::always_inline]] void read_condition(DecimalColumn& column, Row row, int field, Written& last) {
    const std::string_view written = row_.raw_text(field);
    const bool is_below = last.row != no_row && last.row + 1 == row;
    const bool is_again = is_below && (row_.repeats(field) || is_same_text(last.text, written));
    if (is_again && column.put_again(row, last.row)) {
      last.row = row;
      return;
    }
    const RowReader::Quantity quantity = row_.quantity_as_written(field);
    column.put(row, quantity.inside, quantity.written);
    last = is_missing(quantity.inside) ? Written{} : Written{written, row};
  }

  // Of use at some calibrators only.
  [[gnu::always_inline]] void read_humidity(Row row) {
    const Row by = table_.calibrator[row];
    if (by != no_row && !needs_humidity(book_.instruments[by].principle)) row_.spare(humidity);
    read_condition(table_.humidity, row, humidity, last_humidity_);
  }

  void reject(Row row, bool stage_is_lost) {
    table_.flags[row] = static_cast<std::uint8_t>(table_.flags[row] | reading_is_rejected);
    if (stage_is_lost) table_.taken.put(row, no_moment);
    const std::scoped_lock lock(rejected_);
    table_.problem[row] = row_.problem();
  }

  void read_words(Row row) {
    for (const KeptWords& kept : kept_words_) (*kept.column)[row] = row_.interned(kept.field);
    if (table_.note.capacity() > 0) table_.note[row] = row_.interned_note(note);
  }

  std::uint8_t read_void() {
    if (!row_.has(void_)) return 0;
    const bool is_void = row_.yes_no(void_) == YesNo::yes;
    if (is_void && row_.text(note).empty()) {
      row_.doubt(void_, "reading/void-without-note", "a reading is void and nobody says why",
                 "write the reason under 'note'");
    }
    return is_void ? reading_is_void : 0;
  }

  // Readings mostly name the sample of the row before, or the one behind it.
  [[gnu::always_inline]] Row read_sample(Row row) {
    if (row_.repeats(sample) && table_.sample[row - 1] != no_row) return table_.sample[row - 1];
    if (is_named(last_sample_, row_.raw_text(sample))) return last_sample_;
    const Row next = last_sample_ + 1;
    const Row expected = looks_ahead_ ? sought_[read_ % sought_.size()].row : next;
    searched_ += expected == next ? 0 : 1;
    if (is_named(expected, row_.raw_text(sample))) return last_sample_ = expected;
    searched_ += expected == next ? 1 : 0;
    return find_sample();
  }

  bool is_named(Row of_samples, std::string_view name) const {
    return of_samples < book_.samples.size() && is_same_text(book_.samples.name[of_samples], name);
  }

  Row find_sample() {
    const std::string_view name = row_.text(sample);
    if (name.empty()) return no_row;
    Row found = samples_.find(name);
    if (found == no_row && has_wide_blank(name)) found = samples_.find(with_plain_blanks(name));
    if (found == no_row) return unknown_sample(name);
    return last_sample_ = found;
  }

  Row unknown_sample(std::string_view name) {
    if (lost_samples_ != no_problem) return row_.lean_on(lost_samples_), no_row;
    const ProblemNumber problem =
        row_.fail(sample, "reading/unknown-sample", "the sample " + in_quotes(name) + " is in no samples file",
                  "add the sample, or correct the name");
    if (problem != no_problem) unknown_samples_.emplace_back(name, problem);
    return no_row;
  }

  Row read_pump(Row of_sample) {
    if (of_sample != no_row && !has_pump_) return no_row;
    const std::string_view name = row_.text(pump);
    if (name.empty()) {
      if (row_.text(sample).empty()) {
        row_.fail(row_.has(pump) ? pump : sample, "reading/of-nothing", "the reading names neither a pump nor a sample",
                  "name one of them");
      }
      return no_row;
    }
    const Row found = pumps_.find(name, row_, pump, "reading/unknown-pump");
    if (found == no_row) return no_row;
    const Row expected = of_sample == no_row ? no_row : book_.samples.pump[of_sample];
    if (expected != no_row && expected != found) {
      row_.fail(pump, "reading/other-pump",
                "the reading was taken on " + in_quotes(name) + ", but its sample " + in_quotes(row_.text(sample)) +
                    " ran on " + in_quotes(book_.instruments[expected].name),
                "correct the pump or the sample");
    }
    return found;
  }

  [[gnu::always_inline]] Row read_calibrator(Row row) {
    if (row_.repeats(calibrator) && table_.calibrator[row - 1] != no_row) return table_.calibrator[row - 1];
    if (calibrators_.is_last(row_.raw_text(calibrator))) return calibrators_.last();
    const std::string_view name = row_.text(calibrator);
    if (name.empty()) return no_row;
    return calibrators_.find(name, row_, calibrator, "reading/unknown-calibrator");
  }

  const Book& book_;
  ReadingTable& table_;
  const SampleIndex& samples_;
  ProblemNumber lost_samples_;
  NamedInstrument pumps_;
  NamedInstrument calibrators_;
  const TimeZone& zone_;
  std::mutex& rejected_;
  RowReader row_;
  UnknownSamples unknown_samples_;
  Row last_sample_ = 0;
  Run run_;  // of the sample of the last reading
  static constexpr std::size_t rows_a_step = RowsAhead::most / 3;
  std::array<SampleIndex::Sought, RowsAhead::most> sought_;  // by the rows ahead, in turn
  std::size_t expected_ = 0;
  std::size_t read_ = 0;      // of those that were scanned ahead
  std::size_t searched_ = 0;  // samples in this block, by their names
  bool looks_ahead_ = false;
  std::string_view last_expected_;
  Written last_temperature_;
  Written last_pressure_;
  Written last_humidity_;
  // Which of the columns are kept.
  bool has_sample_ = table_.sample.capacity() > 0;
  bool has_pump_ = table_.pump.capacity() > 0;
  bool has_temperature_ = table_.temperature_k.capacity() > 0;
  bool has_pressure_ = table_.pressure_kpa.capacity() > 0;
  bool has_humidity_ = table_.humidity.capacity() > 0;
  struct KeptWords {
    Column<TextId>* column;
    int field;
  };
  std::vector<KeptWords> kept_words_;
};

// f(column, field number or -1 for a column that is always kept)
template <class F>
void for_each_column(ReadingTable& table, F f) {
  f(table.taken, -1);
  f(table.stage, -1);
  f(table.flags, -1);
  f(table.sample, sample);
  f(table.pump, pump);
  f(table.calibrator, -1);
  f(table.indicated_l_min, -1);
  f(table.temperature_k, temperature);
  f(table.pressure_kpa, pressure);
  f(table.humidity, humidity);
  f(table.replicate, replicate);
  f(table.set, set);
  f(table.sampler, sampler);
  f(table.by, by);
  f(table.note, note);
}

std::size_t read_file(const TableFile& file, const BookInHand& hand, const Known& known, Row first_row,
                      UnknownSamples& unknown, TableProgress& progress) {
  ReadingTable& table = hand.book.readings;
  std::mutex rejected;
  std::vector<std::unique_ptr<ReadingRows>> workers;
  for (unsigned t = 0; t < hand.threads; ++t) {
    workers.push_back(std::make_unique<ReadingRows>(file, hand, known, rejected));
  }
  const std::size_t mark = hand.problems.mark();
  std::size_t rows = 0;
  if (read_rows_in_blocks(file.bytes, file.layout, first_row, workers, rows,
                          [&progress](std::size_t bytes) { progress.pass(bytes); })) {
    table.place.start(first_row, {file.number, file.layout.first_line});
  } else {
    hand.problems.back_to(mark);
    table.problem.erase(table.problem.lower_bound(first_row), table.problem.end());
    for (auto& worker : workers) worker->unknown_samples().clear();
    make_room(file, first_row, [&](auto f) { for_each_column(table, [&](auto& column, int) { f(column); }); });
    rows = read_rows_in_order(file.bytes, file.layout, file.number, first_row, *workers[0], table.place);
  }
  for (auto& worker : workers) {
    for (auto& name : worker->unknown_samples()) unknown.push_back(std::move(name));
  }
  return rows;
}

// Columns of numbers, with their fields.
std::array<std::pair<DecimalColumn*, int>, 4> decimal_columns(ReadingTable& table) {
  return {{{&table.indicated_l_min, reading},
           {&table.temperature_k, temperature},
           {&table.pressure_kpa, pressure},
           {&table.humidity, humidity}}};
}

void set_forms(ReadingTable& table, const std::vector<TableFile>& files) {
  for (const auto& [column, f] : decimal_columns(table)) {
    const FieldSpec& spec = fields[static_cast<std::size_t>(f)];
    if (const auto form = decimal_form_of(files, f)) column->set_form(*form, spec.least, spec.most);
  }
}

// Whether the first rows of a column promised a form that the others don't have.
bool has_misfit(ReadingTable& table) {
  const auto columns = decimal_columns(table);
  return std::any_of(columns.begin(), columns.end(), [](const auto& column) { return column.first->is_misfit(); });
}

UnknownSamples read_files(const std::vector<TableFile>& files, const BookInHand& hand, const Known& known) {
  ReadingTable& table = hand.book.readings;
  std::size_t most = 0;
  for (const TableFile& file : files) most += most_rows(file.bytes, file.layout);
  for_each_column(table, [&](auto& column, int f) {
    if (f < 0 || someone_wrote(files, f, note)) column.reserve(most);
  });
  std::size_t rows = 0;
  UnknownSamples unknown;
  TableProgress progress(hand.advance, "reading readings", files);
  for (const TableFile& file : files) rows += read_file(file, hand, known, static_cast<Row>(rows), unknown, progress);
  table.rows = rows;
  for_each_column(table, [rows](auto& column, int) { column.set_size(column.capacity() == 0 ? 0 : rows); });
  return unknown;
}

// A reading that names no sample and no pump that can be found may be anybody's.
void lose_readings_of_nobody(const BookInHand& hand) {
  const ReadingTable& table = hand.book.readings;
  for (const auto& [row, problem] : table.problem) {
    const bool is_somebodys = field(table.sample, row, no_row) != no_row || field(table.pump, row, no_row) != no_row;
    if (!is_somebodys) return hand.lose("readings", problem);
  }
}

// In the memory of so many, those of a sample are far apart where they stand in no order; of fewer, the processor has
// them in its cache.
constexpr std::size_t many_readings = 200'000;

}  // namespace

const TableSpec readings_spec{"readings", fields};

void read_readings(const std::vector<TableFile>& files, const BookInHand& hand) {
  const Known known{index_of_samples(hand), index_of_instruments(hand.book.instruments)};
  ReadingTable& table = hand.book.readings;
  const std::size_t mark = hand.problems.mark();
  const ProblemNumber lost = hand.lost["readings"];
  set_forms(table, files);
  UnknownSamples unknown = read_files(files, hand, known);
  if (has_misfit(table)) {
    table = {};
    hand.problems.back_to(mark);
    hand.lost["readings"] = lost;
    unknown = read_files(files, hand, known);
  }
  hint_at_samples(unknown, hand.book.samples, hand.problems);
  lose_readings_of_nobody(hand);
  if (table.size() > many_readings && table.are_scattered())
    table.sort_by_sample(hand.book.samples.size(), hand.threads);
}

}  // namespace driftwarden
