// SPDX-License-Identifier: MIT
#include "workshop/rehearsal.hpp"

#include <algorithm>

#include "book/file_manner.hpp"
#include "book/rows_received.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "book/timestamp.hpp"
#include "diagnostic/characters.hpp"
#include "outside/scratch_place.hpp"
#include "outside/whole_file.hpp"
#include "outside/write_fault.hpp"
#include "quantity/number.hpp"
#include "verdict/calibrator_display.hpp"
#include "workshop/book_with_rows.hpp"

namespace driftwarden {
namespace {

constexpr Moment minute = 60;
constexpr Moment read_before = 15 * minute;
constexpr Moment read_after = 10 * minute;

// A row of a table that the book is to be read with: cells by their heading.
class RowText {
 public:
  RowText(const TableSpec& spec, const Settings& settings)
      : decimal_(manner_of(settings, received_pattern(spec)).decimal) {}

  void text(std::string_view heading, std::string_view cell) { add(heading, cell); }
  void figure(std::string_view heading, double figure) {
    if (is_missing(figure)) return;
    std::string cell = shortest(figure);
    std::ranges::replace(cell, '.', decimal_);
    add(heading, cell);
  }
  const std::string& headings() const { return headings_; }
  const std::string& cells() const { return cells_; }

 private:
  void add(std::string_view heading, std::string_view cell) {
    headings_ += (headings_.empty() ? "" : ",") + std::string(heading);
    if (!cells_.empty()) cells_ += ',';
    append_in_csv_quotes(cells_, cell);
  }

  char decimal_;
  std::string headings_;
  std::string cells_;
};

// A name that no sample has.
std::string free_name(const Book& book, std::string name) {
  if (name.empty()) name = "ahead";
  while (std::ranges::find(book.samples.name, std::string_view(name)) != book.samples.name.end()) name += "'";
  return name;
}

void put_air(RowText& row, const AirAhead& air) {
  row.figure("temperature [K]", air.temperature_k);
  row.figure("pressure [kPa]", air.pressure_kpa);
}

std::string stamp(const Book& book, Moment moment) { return local_text(moment, book.settings.zone); }

struct Names {
  std::string sample;
  std::string pump;
  std::string calibrator;
};

std::string samples_text(const Book& book, const RehearsalAsked& asked, const Names& names, Moment started) {
  RowText row(samples_spec, book.settings);
  row.text("sample", names.sample);
  row.text("pump", names.pump);
  row.text("sampler", asked.sample.sampler);
  row.text("method", asked.sample.method);
  row.text("analysis", asked.sample.analysis);
  row.figure("nominal [L/min]", asked.sample.nominal_l_min);
  row.text("started", stamp(book, started));
  row.text("stopped", stamp(book, started + static_cast<Moment>(asked.minutes * static_cast<double>(minute))));
  put_air(row, asked.air);
  return row.headings() + "\n" + row.cells() + "\n";
}

RowText reading_row(const Book& book, const RehearsalAsked& asked, const Names& names, Moment taken, Stage stage,
                    double shown_l_min) {
  RowText row(readings_spec, book.settings);
  row.text("taken", stamp(book, taken));
  row.text("stage", to_text(stage));
  row.text("sample", names.sample);
  row.text("calibrator", names.calibrator);
  row.figure("reading [L/min]", shown_l_min);
  put_air(row, asked.air);
  if (!is_missing(asked.air.humidity)) row.figure("humidity [%]", 100 * asked.air.humidity);
  return row;
}

Result<RowsReceived> rows_of(const std::string& text, const std::string& name, const Settings& settings) {
  const ScratchPlace scratch;
  if (scratch.path().empty()) return scratch.fault();
  const auto file = scratch.path() / name;
  if (const int reason = write_new(file, text); reason != 0) return unwritable(file, reason);
  return rows_received(file, settings);
}

}  // namespace

Moment start_ahead(const Settings& settings, Day day) {
  Moment start = no_moment;
  StampReader(settings.zone, DateOrder::iso).read(date_text(day) + "T08:00", start);
  return start == no_moment ? static_cast<Moment>(day) * seconds_a_day + 8 * 60 * minute : start;
}

Result<std::unique_ptr<Rehearsal>> Rehearsal::of(const OpenedBook& opened, const RehearsalAsked& asked) {
  const Book& book = opened.book;
  const SampleAhead& sample = asked.sample;
  const Day day = sample.day == no_day ? opened.as_of : sample.day;
  const double shown = CalibratorDisplay(*opened.screening, sample.calibrator, day)
                           .should_show(sample.nominal_l_min, {}, asked.air)
                           .nominal;
  if (is_missing(shown))
    return error("rehearsal/no-flow", {}, "what the calibrator should show can't be worked out",
                 "say the air with --temperature, --pressure and --humidity");
  const Names names{free_name(book, sample.name), book.instruments[sample.pump].name,
                    book.instruments[sample.calibrator].name};
  const Moment started = start_ahead(book.settings, day);
  const Moment stopped = started + static_cast<Moment>(asked.minutes * static_cast<double>(minute));
  const RowText pre = reading_row(book, asked, names, started - read_before, Stage::pre, shown);
  const RowText post = reading_row(book, asked, names, stopped + read_after, Stage::post, shown);
  std::vector<RowsReceived> rows;
  for (const auto& [text, name] :
       {std::pair(samples_text(book, asked, names, started), "samples.csv"),
        std::pair(pre.headings() + "\n" + pre.cells() + "\n" + post.cells() + "\n", "readings.csv")}) {
    Result<RowsReceived> read = rows_of(text, name, book.settings);
    if (!read) return read.faults();
    rows.push_back(*std::move(read));
  }
  Result<BookWithRows> with = book_with_rows(book, std::move(rows), day, asked.threads);
  if (!with) return with.faults();
  auto made = std::make_unique<Rehearsal>();
  Diagnostics ignored;
  made->with_ = put_together(std::move(with->book), opened.rules, opened.as_of, asked.threads, ignored);
  made->judge_ = std::make_unique<SampleJudge>(*made->with_->screening);
  const auto& all = made->with_->book.samples.name;
  const auto found = std::ranges::find(all, std::string_view(names.sample));
  if (found == all.end())
    return error("rehearsal/no-sample", {}, "the book leaves the planned sample out when it is read with it",
                 "an 'ignore_rows' of book.toml may mean rows that begin with its name");
  made->result_ = &made->judge_->judge(static_cast<Row>(found - all.begin()));
  return made;
}

}  // namespace driftwarden
