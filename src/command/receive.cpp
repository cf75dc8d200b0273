// SPDX-License-Identifier: MIT
#include <algorithm>
#include <map>
#include <ostream>
#include <set>
#include <tuple>

#include "book/table_files.hpp"
#include "command/given_text.hpp"
#include "command/opened_book.hpp"
#include "diagnostic/suggestion.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/terminal_text.hpp"
#include "verdict/message.hpp"
#include "workshop/book_lock.hpp"
#include "workshop/book_with_rows.hpp"

namespace driftwarden {
namespace {

Diagnostic receive_refused(Place place, std::string message, std::string hint) {
  return error("receive/refused", std::move(place), std::move(message), std::move(hint));
}

// Rows that came, held against the book that they are to join.
class Newcomers {
 public:
  Newcomers(const Book& before, const BookWithRows& with, const std::vector<RowsReceived>& rows,
            const std::vector<std::string>& came_as)
      : before_(before), with_(with), book_(with.book), rows_(rows), came_as_(came_as) {}

  // All that speaks against taking the rows in.
  Diagnostics against() {
    new_problems();
    seen_before();
    samples_as_planned();
    readings_read_once();
    return std::move(against_);
  }

  // What whoever receives them should know besides.
  Diagnostics remarks() const {
    Diagnostics all;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      for (const Receipt& receipt : before_.receipts) {
        if (rows_[i].form.empty() || receipt.form != rows_[i].form) continue;
        all.push_back(remark("receive/form-again", {came_as_[i], 0, 0},
                             "rows of the form " + in_quotes(receipt.form) + " were received before, " +
                                 local_text(receipt.received, before_.settings.zone) + " by " + receipt.by,
                             "see that it was not filled in twice"));
        break;
      }
    }
    return all;
  }

  // The samples that the rows are, or are readings of, in the order of the book.
  std::set<Row> samples() const {
    std::set<Row> touched;
    for (Row row = 0; row < book_.samples.size(); ++row) {
      if (is_new(book_.files.samples, book_.samples.place[row])) touched.insert(row);
    }
    for (Row row = 0; row < book_.readings.size(); ++row) {
      const Row sample = field(book_.readings.sample, row, no_row);
      if (sample != no_row && is_new(book_.files.readings, book_.readings.place[row])) touched.insert(sample);
    }
    return touched;
  }

 private:
  bool is_new(const std::vector<std::string>& files, RowPlace place) const {
    return std::find(with_.files.begin(), with_.files.end(), files[place.file]) != with_.files.end();
  }

  // A place in the file as it came.
  Place as_it_came(Place place) const {
    const auto found = std::find(with_.files.begin(), with_.files.end(), place.file);
    if (found != with_.files.end()) place.file = came_as_[static_cast<std::size_t>(found - with_.files.begin())];
    return place;
  }
  std::string as_it_came(std::string message) const {
    for (std::size_t i = 0; i < came_as_.size(); ++i) {
      const std::size_t at = message.find(with_.files[i]);
      if (at != std::string::npos) message.replace(at, with_.files[i].size(), came_as_[i]);
    }
    return message;
  }
  Place place_of(const std::vector<std::string>& files, RowPlace place) const {
    return as_it_came(book_.place(files, place));
  }

  // Faults that the book has with the rows and not without them.
  void new_problems() {
    std::set<std::string> known;
    for (const Diagnostic& problem : before_.problems) known.insert(to_text(problem));
    for (const Diagnostic& problem : book_.problems) {
      if (!is_error(problem) || known.contains(to_text(problem))) continue;
      Diagnostic told = problem;
      told.place = as_it_came(told.place);
      told.message = as_it_came(told.message);
      against_.push_back(std::move(told));
    }
  }

  void seen_before() {
    std::map<std::string, std::string> came;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const auto [other, is_first] = came.emplace(rows_[i].text, came_as_[i]);
      if (!is_first)
        against_.push_back(
            receive_refused({came_as_[i], 0, 0}, "its rows are those of " + other->second, "name each file once"));
      for (const Receipt& receipt : before_.receipts) {
        if (receipt.sha256 != rows_[i].sha256) continue;
        against_.push_back(receive_refused({came_as_[i], 0, 0},
                                           "this file was received before, " +
                                               local_text(receipt.received, before_.settings.zone) + " by " +
                                               receipt.by + ", as " + receipt.file,
                                           "there is nothing to add"));
        break;
      }
    }
  }

  void samples_as_planned() {
    std::map<std::string_view, const PlannedSample*> plan;
    for (const PlannedSample& planned : book_.plan) plan.emplace(planned.name, &planned);
    for (Row row = 0; row < book_.samples.size(); ++row) {
      if (!is_new(book_.files.samples, book_.samples.place[row])) continue;
      const auto found = plan.find(book_.samples.name[row]);
      if (found == plan.end()) {
        if (!book_.plan.empty()) not_planned(row);
      } else {
        hold_against(*found->second, row);
      }
    }
  }

  void hold_against(const PlannedSample& planned, Row row) {
    const auto differs = [&](std::string_view what, const std::string& written, const std::string& as_planned) {
      if (as_planned.empty() || written == as_planned) return;
      against_.push_back(receive_refused(place_of(book_.files.samples, book_.samples.place[row]),
                                         "the " + std::string(what) + " of " + in_quotes(planned.name) + " is " +
                                             (written.empty() ? "not said" : in_quotes(written)) + ", and in " +
                                             book_.place_text(book_.files.plan, planned.place) + " it is " +
                                             in_quotes(as_planned),
                                         "correct the one that is wrong"));
    };
    differs("batch", book_.texts.text(field(book_.samples.batch, row, TextId{0})), planned.batch);
    differs("kind", std::string(to_text(book_.samples.kind[row])), std::string(to_text(planned.kind)));
    differs("pump", name_of(book_.samples.pump[row]), name_of(planned.pump));
    differs("sampler", book_.texts.text(field(book_.samples.sampler, row, TextId{0})), planned.sampler);
  }

  // Of a batch that is planned: it may be of another.
  void not_planned(Row row) {
    const std::string batch = book_.texts.text(field(book_.samples.batch, row, TextId{0}));
    std::vector<std::string> of_batch;
    for (const PlannedSample& planned : book_.plan) {
      if (planned.batch == batch) of_batch.push_back(planned.name);
    }
    if (of_batch.empty()) return;
    const std::string name(book_.samples.name[row]);
    against_.push_back(receive_refused(
        place_of(book_.files.samples, book_.samples.place[row]),
        "the sample " + in_quotes(name) + " is not among those planned for the batch " + in_quotes(batch),
        did_you_mean(name, of_batch)));
  }

  std::string name_of(Row instrument) const { return instrument == no_row ? "" : book_.instruments[instrument].name; }

  // What tells one reading from all others.
  auto key_of(Row row) const {
    const ReadingTable& all = book_.readings;
    return std::tuple(field(all.sample, row, no_row), field(all.pump, row, no_row), all.stage[row], all.taken[row],
                      all.calibrator[row], field(all.replicate, row, TextId{0}));
  }
  bool counts(Row row) const { return !book_.readings.is_void(row) && !book_.readings.is_rejected(row); }

  // The same reading once: in the book, and among those that came.
  void readings_read_once() {
    std::map<decltype(key_of(Row{})), Row> known;
    std::vector<Row> came;
    for (Row row = 0; row < book_.readings.size(); ++row) {
      if (is_new(book_.files.readings, book_.readings.place[row])) {
        came.push_back(row);
      } else if (counts(row)) {
        known.emplace(key_of(row), row);
      }
    }
    for (const Row row : came) {
      const auto there = known.find(key_of(row));
      if (there != known.end()) {
        read_twice(row, there->second);
      } else if (counts(row) && field(book_.readings.replicate, row, TextId{0}) != TextId{0}) {
        known.emplace(key_of(row), row);  // without a replicate there may be several in a minute
      }
    }
  }

  void read_twice(Row row, Row other) {
    const double figure = book_.readings.indicated_l_min[row];
    const double before = book_.readings.indicated_l_min[other];
    const Place there = place_of(book_.files.readings, book_.readings.place[other]);
    const bool is_same = figure == before && counts(row);
    const std::string what =
        is_same        ? "the reading stands already in "
        : !counts(row) ? "the reading is struck out here, and stands in "
                       : "the reading is " + shortest(figure) + " L/min here, and " + shortest(before) + " L/min in ";
    against_.push_back(receive_refused(
        place_of(book_.files.readings, book_.readings.place[row]), what + to_text(there),
        is_same ? "leave it out"
                : "strike the one that is wrong out where it stands, with void and a note, and leave it there"));
  }

  const Book& before_;
  const BookWithRows& with_;
  const Book& book_;
  const std::vector<RowsReceived>& rows_;
  const std::vector<std::string>& came_as_;
  Diagnostics against_;
};

std::optional<std::vector<RowsReceived>> rows_that_came(const ReceiveOptions& options, const Settings& settings,
                                                        Surroundings& surroundings) {
  std::vector<RowsReceived> rows;
  bool is_refused = false;
  for (const std::string& file : options.files) {
    Result<RowsReceived> read = rows_received(file, settings);
    if (read) {
      rows.push_back(*std::move(read));
    } else {
      tell(surroundings.err, read.faults());
      is_refused = true;
    }
  }
  if (is_refused) return std::nullopt;
  return rows;
}

// The samples touched, and how each stands with the rows.
void print_standings(Book book, RuleSet rules, const std::set<Row>& samples, const BookOptions& options, Day as_of,
                     Surroundings& surroundings) {
  Diagnostics found;
  const auto opened = put_together(std::move(book), std::move(rules), as_of, threads_of(options), found);
  SampleJudge judge(*opened->screening);
  for (const Row sample : samples)
    surroundings.out << opened->book.samples.name[sample] << ": " << standing_text(judge.judge(sample)) << '\n';
}

std::function<void()> tells_of_another_run(Surroundings& surroundings) {
  return [&surroundings] {
    tell(surroundings.err, {remark("table/waiting", {"book.toml", 0, 0}, "another run is receiving rows into the book",
                                   "this one waits until that is done")});
  };
}

}  // namespace

int run_receive(const ReceiveOptions& options, Surroundings& surroundings) {
  const Refuse refuse_line = [&surroundings](std::string message, std::string hint) {
    tell(surroundings.err, {receive_refused({"command line", 0, 0}, std::move(message), std::move(hint))});
  };
  const std::optional<std::string> by = text_given({"--by", options.by, "name who takes the rows in"}, refuse_line);
  if (!by) return cannot_be_used;
  const Result<BookLock> lock = BookLock::take(options.book.book, tells_of_another_run(surroundings));
  if (!lock) return refuse(lock.faults(), surroundings);
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  if (is_mark_for_nothing({"--by", *by, ""}, opened->book, refuse_line)) return cannot_be_used;
  const auto rows = rows_that_came(options, opened->book.settings, surroundings);
  if (!rows) return cannot_be_used;
  Result<BookWithRows> with = book_with_rows(options.book.book, *rows, threads_of(options.book));
  if (!with) return refuse(with.faults(), surroundings);
  Newcomers newcomers(opened->book, *with, *rows, options.files);
  if (const Diagnostics against = newcomers.against(); !against.empty()) {
    tell(surroundings.err, against);
    surroundings.err << "nothing was written\n";
    return cannot_be_used;
  }
  tell(surroundings.err, newcomers.remarks());
  std::vector<Receipt> receipts;
  for (std::size_t i = 0; i < rows->size(); ++i) {
    const RowsReceived& each = (*rows)[i];
    receipts.push_back({surroundings.now,
                        *by,
                        each.name_on(local_day(surroundings.now, opened->book.settings.zone)),
                        std::to_string(each.rows),
                        each.form,
                        std::filesystem::path(options.files[i]).filename().string(),
                        each.sha256,
                        {}});
  }
  if (!options.dry_run) {
    const Diagnostics faults =
        write_received(opened->book, *rows, receipts, tells_of_waiting(received_spec, surroundings));
    if (!faults.empty()) return refuse(faults, surroundings);
    surroundings.is_done = true;
  }
  for (std::size_t i = 0; i < rows->size(); ++i) {
    surroundings.out << for_terminal(options.files[i]) << ": " << counted((*rows)[i].rows, "row", "rows") << " of "
                     << (*rows)[i].spec->table << (options.dry_run ? " would go into " : " in ") << receipts[i].file
                     << '\n';
  }
  const std::set<Row> samples = newcomers.samples();
  print_standings(std::move(with->book), opened->rules, samples, options.book, opened->as_of, surroundings);
  if (options.dry_run) surroundings.out << "nothing was written\n";
  return all_is_well;
}

}  // namespace driftwarden
