// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>
#include <map>
#include <ostream>
#include <set>
#include <system_error>
#include <tuple>

#include "book/altered_rows.hpp"
#include "book/one_cause.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"
#include "command/given_text.hpp"
#include "command/opened_book.hpp"
#include "command/output_file.hpp"
#include "diagnostic/joined.hpp"
#include "doubt/doubtful.hpp"
#include "doubt/read_twice.hpp"
#include "quantity/rounding.hpp"
#include "report/terminal_text.hpp"
#include "verdict/message.hpp"
#include "workshop/book_lock.hpp"
#include "workshop/book_with_rows.hpp"
#include "workshop/grown_table.hpp"
#include "workshop/rows_at_odds.hpp"
#include "workshop/rows_standing.hpp"

namespace driftwarden {
namespace {

namespace fs = std::filesystem;

Diagnostic receive_refused(Place place, std::string message, std::string hint) {
  return error("receive/refused", std::move(place), std::move(message), std::move(hint));
}

// What is wrong with a name that is given, before it is opened.
std::optional<Diagnostic> not_from_elsewhere(const std::string& file, const Book& book) {
  std::error_code ignored;
  if (fs::is_directory(file, ignored)) {
    const bool is_book = fs::equivalent(file, book.folder, ignored);
    return receive_refused({file, 0, 0}, is_book ? "this is the book itself" : "this is a folder",
                           "name the CSV files whose rows are to come into the book");
  }
  if (fs::exists(file, ignored) && is_of_the_book(book, file))
    return receive_refused({file, 0, 0}, "this is a file of the book itself", "name a file from elsewhere");
  return std::nullopt;
}

// The rows of the files that are named, or why they are not to be had.
Result<std::vector<RowsReceived>> rows_that_came(const std::vector<std::string>& files, const Book& book) {
  std::vector<RowsReceived> rows;
  Diagnostics against;
  for (const std::string& file : files) {
    if (auto fault = not_from_elsewhere(file, book)) {
      against.push_back(*std::move(fault));
      continue;
    }
    Result<RowsReceived> read = rows_received(file, book.settings);
    if (!read) {
      against.insert(against.end(), read.faults().begin(), read.faults().end());
      continue;
    }
    const auto same =
        std::find_if(rows.begin(), rows.end(), [&](const RowsReceived& other) { return other.text() == read->text(); });
    if (same != rows.end()) {
      against.push_back(receive_refused(
          {file, 0, 0}, same->came_as == file ? "this file is named twice" : "its rows are those of " + same->came_as,
          "name each file once"));
    }
    rows.push_back(*std::move(read));
  }
  if (!against.empty()) return against;
  return rows;
}

// Rows that came, held against the book that they are to join.
class Newcomers {
 public:
  Newcomers(const Book& before, const BookWithRows& with) : before_(before), with_(with), book_(with.book) {}

  // What the book has to be told of with the rows and has not without them.
  Diagnostics new_problems() const {
    std::set<std::string> known;
    for (const Diagnostic& problem : before_.problems) known.insert(to_text(problem));
    const bool samples_came = std::any_of(with_.rows.begin(), with_.rows.end(),
                                          [](const RowsReceived& rows) { return rows.spec == &samples_spec; });
    Diagnostics fresh;
    Diagnostics without_sample;
    for (const Diagnostic& problem : book_.problems) {
      // That a sample stands twice is told by what differs between the two.
      if (known.contains(to_text(problem)) || problem.id == "sample/twice" || !is_of_the_rows(problem)) continue;
      Diagnostic told = problem;
      told.place = with_.as_it_came(told.place);
      told.message = with_.as_it_came(told.message);
      (told.id == "reading/unknown-sample" && !samples_came ? without_sample : fresh).push_back(std::move(told));
    }
    tell_missing_samples(std::move(without_sample), fresh);
    return fresh;
  }

  // Rows that book.toml says are none of their table, in files of the name that theirs gets.
  Diagnostics ignored_rows() const {
    std::vector<std::set<std::uint32_t>> read_lines(with_.rows.size());
    const auto note = [&](const std::vector<std::string>& files, const auto& table) {
      const auto came = with_.came_in(files);
      for (Row row = 0; row < table.size(); ++row) {
        const RowPlace place = table.place[row];
        if (came[place.file] != nullptr)
          read_lines[static_cast<std::size_t>(came[place.file] - with_.rows.data())].insert(place.line);
      }
    };
    note(book_.files.samples, book_.samples);
    note(book_.files.readings, book_.readings);
    Diagnostics all;
    for (std::size_t i = 0; i < with_.rows.size(); ++i) {
      const std::vector<std::uint32_t> lines = with_.rows[i].lines_but(read_lines[i]);
      const bool is_unreadable =
          read_lines[i].empty() &&
          std::any_of(book_.problems.begin(), book_.problems.end(), [&](const Diagnostic& problem) {
            return is_error(problem) && problem.place.file == with_.files[i];
          });
      if (lines.empty() || is_unreadable) continue;
      all.push_back(receive_refused(with_.rows[i].as_it_came({{}, lines.front(), 0}),
                                    "the book would not read " + counted(lines.size(), "row", "rows") +
                                        " of the file, of which this is the first: book.toml has ignore_rows for it",
                                    "take such rows out; or say ignore_rows = [] under [files.\"" +
                                        received_pattern(*with_.rows[i].spec) + "\"]"));
    }
    return all;
  }

  // Rows that stand twice among those that came.
  Diagnostics read_twice_here() const {
    Diagnostics twice;
    if (book_.readings.size() > most_readings_looked_through) return twice;
    note_read_twice(book_, read_twice(book_, ComeBy(book_, {})), twice);
    std::erase_if(twice, [this](const Diagnostic& of) { return !stands_among_the_rows(of); });
    for (Diagnostic& of : twice) {
      of.place = with_.as_it_came(of.place);
      of.message = with_.as_it_came(of.message);
    }
    return twice;
  }

  // What whoever receives them should know besides.
  Diagnostics seen_before() const {
    Diagnostics all;
    for (const RowsReceived& rows : with_.rows) {
      const auto same_file = receipt([&](const Receipt& it) { return it.sha256 == rows.sha256; });
      const auto same_form = receipt([&](const Receipt& it) { return !rows.form.empty() && it.form == rows.form; });
      if (same_file != nullptr) {
        all.push_back(remark("receive/file-again", {rows.came_as, 0, 0},
                             "this file was received before, " + when_and_who(*same_file) + ", as " + same_file->file,
                             "what of it stands in the book is passed over"));
      } else if (same_form != nullptr) {
        all.push_back(
            remark("receive/form-again", {rows.came_as, 0, 0},
                   "rows of the form " + in_quotes(rows.form) + " were received before, " + when_and_who(*same_form),
                   "see that it was not filled in twice; what of it stands in the book is passed over"));
      }
    }
    return all;
  }

  // The samples that the rows are, or are readings of, in the order of the book.
  std::set<Row> samples() const {
    std::set<Row> touched;
    const auto came_samples = with_.came_in(book_.files.samples);
    for (Row row = 0; row < book_.samples.size(); ++row) {
      if (came_samples[book_.samples.place[row].file] != nullptr) touched.insert(row);
    }
    const auto came_readings = with_.came_in(book_.files.readings);
    for (Row row = 0; row < book_.readings.size(); ++row) {
      const Row sample = field(book_.readings.sample, row, no_row);
      if (sample != no_row && came_readings[book_.readings.place[row].file] != nullptr) touched.insert(sample);
    }
    return touched;
  }

 private:
  // A fault, wherever it shows; a remark only about the rows themselves.
  bool is_of_the_rows(const Diagnostic& problem) const { return is_error(problem) || stands_among_the_rows(problem); }
  bool stands_among_the_rows(const Diagnostic& problem) const {
    return std::find(with_.files.begin(), with_.files.end(), problem.place.file) != with_.files.end();
  }

  // Readings whose samples did not come with them, one message a file.
  static void tell_missing_samples(Diagnostics problems, Diagnostics& told) {
    std::set<std::string> messages;
    for (const Diagnostic& problem : problems) messages.insert(problem.message);
    if (messages.size() == 1 && problems.front().hint.starts_with("did you mean")) {
      told.insert(told.end(), problems.begin(), problems.end());
      return;
    }
    std::set<std::string> files;
    for (const Diagnostic& problem : problems) {
      if (!files.insert(problem.place.file).second) continue;
      told.push_back(receive_refused(
          problem.place,
          problem.message + (messages.size() < 2 ? std::string()
                                                 : ", nor " + counted(messages.size() - 1, "other", "others") +
                                                       " that these readings are of"),
          "receive the samples file together with it, or before it"));
    }
  }

  template <class Is>
  const Receipt* receipt(Is is) const {
    const auto found = std::find_if(before_.receipts.begin(), before_.receipts.end(), is);
    return found == before_.receipts.end() ? nullptr : &*found;
  }
  std::string when_and_who(const Receipt& receipt) const {
    return local_text(receipt.received, before_.settings.zone) + " by " + receipt.by;
  }

  const Book& before_;
  const BookWithRows& with_;
  const Book& book_;
};

// One run, and whom it serves.
class Receiving {
 public:
  Receiving(const ReceiveOptions& options, const OpenedBook& opened, std::string by, Surroundings& surroundings)
      : options_(options),
        opened_(opened),
        by_(std::move(by)),
        surroundings_(surroundings),
        day_(local_day(surroundings.now, opened.book.settings.zone)) {}

  int run() {
    Result<std::vector<RowsReceived>> rows = rows_that_came(options_.files, opened_.book);
    if (!rows) return refuse(rows.faults(), surroundings_);
    Result<BookWithRows> with = with_rows(*rows);
    if (!with) return refuse(with.faults(), surroundings_);
    const RowsStanding standing = rows_standing(*with);
    tell(surroundings_.err, Newcomers(opened_.book, *with).seen_before());
    if (standing.count() > 0) {
      std::vector<RowsReceived> others;
      for (std::size_t i = 0; i < with->rows.size(); ++i) {
        tell_passed_over(with->rows[i], standing.unchanged[i].size());
        RowsReceived left = with->rows[i].without(standing.unchanged[i]);
        if (left.rows() > 0) others.push_back(std::move(left));
      }
      if (others.empty()) return nothing_new(standing.differing);
      with = with_rows(std::move(others));
      if (!with) return refuse(with.faults(), surroundings_);
    }
    return receive(*std::move(with), standing.differing);
  }

 private:
  Result<BookWithRows> with_rows(std::vector<RowsReceived> rows) const {
    return book_with_rows(opened_.book, std::move(rows), day_, threads_of(options_.book));
  }

  void tell_passed_over(const RowsReceived& rows, std::size_t count) {
    if (count == 0) return;
    surroundings_.out << for_terminal(rows.came_as) << ": " << counted(count, "row stands", "rows stand")
                      << " already, unchanged: passed over\n";
  }

  int nothing_new(const Diagnostics& remarks) {
    tell(surroundings_.err, remarks);
    surroundings_.out << "nothing was written\n";
    return all_is_well;
  }

  int receive(BookWithRows with, Diagnostics found) {
    const Newcomers newcomers(opened_.book, with);
    for (const Diagnostics& more : {newcomers.new_problems(), newcomers.ignored_rows(), newcomers.read_twice_here(),
                                    rows_at_odds(with, opened_.rules, opened_.as_of)})
      found.insert(found.end(), more.begin(), more.end());
    if (auto fault = kept_in_workbook({received_spec, opened_.book.files.received, {}}))
      found.push_back(*std::move(fault));
    std::stable_sort(found.begin(), found.end(), [](const Diagnostic& one, const Diagnostic& other) {
      return std::tie(one.place.file, one.place.line, one.place.column) <
             std::tie(other.place.file, other.place.line, other.place.column);
    });
    const auto file_as_it_came = [&](const std::string& name) -> std::optional<RereadFile> {
      for (std::size_t i = 0; i < with.rows.size(); ++i) {
        if (with.rows[i].came_as == name) return with.rows[i].as_it_came_in(with.files[i], opened_.book.settings);
      }
      return std::nullopt;
    };
    tell(surroundings_.err, told_by_cause(found, opened_.book.settings.empty_marks, file_as_it_came));
    if (std::any_of(found.begin(), found.end(), is_error)) {
      surroundings_.err << "nothing was written\n";
      return cannot_be_used;
    }
    if (!options_.dry_run) {
      const Diagnostics faults =
          write_received(opened_.book, with, receipts_of(with), tells_of_waiting(received_spec, surroundings_));
      if (!faults.empty()) return refuse(faults, surroundings_);
      surroundings_.is_done = true;
    }
    for (std::size_t i = 0; i < with.rows.size(); ++i) {
      surroundings_.out << for_terminal(with.rows[i].came_as) << ": " << counted(with.rows[i].rows(), "row", "rows")
                        << " of " << with.rows[i].spec->table << (options_.dry_run ? " would go into " : " in ")
                        << with.files[i] << '\n';
    }
    const std::set<Row> samples = newcomers.samples();
    print_standings(std::move(with.book), samples);
    if (options_.dry_run) surroundings_.out << "nothing was written\n";
    return all_is_well;
  }

  std::vector<Receipt> receipts_of(const BookWithRows& with) const {
    std::vector<Receipt> receipts;
    std::map<std::string_view, RowsOfFile> read = rows_of_files(with.book);
    for (std::size_t i = 0; i < with.rows.size(); ++i) {
      const RowsReceived& each = with.rows[i];
      const RowsOfFile& rows = read[with.files[i]];
      receipts.push_back({surroundings_.now,
                          by_,
                          with.files[i],
                          std::to_string(each.rows()),
                          each.form,
                          fs::path(each.came_as).filename().string(),
                          each.sha256,
                          rows.struck_out == 0 ? missing : static_cast<double>(rows.struck_out),
                          rows.first,
                          rows.last,
                          {}});
    }
    return receipts;
  }

  // The samples touched, how each stands with the rows, and why.
  void print_standings(Book book, const std::set<Row>& samples) {
    Diagnostics found;
    const auto opened = put_together(std::move(book), opened_.rules, opened_.as_of, threads_of(options_.book), found);
    SampleJudge judge(*opened->screening);
    std::string in_question;
    for (const Row sample : samples) {
      const SampleResult& result = judge.judge(sample);
      surroundings_.out << opened->book.samples.name[sample] << ": " << standing_text(result) << '\n';
      const auto grave = std::find_if(result.findings.begin(), result.findings.end(),
                                      [&](const Finding& finding) { return gave_the_verdict(result, finding); });
      if (grave == result.findings.end()) continue;
      surroundings_.out << "  " << message_of(*opened->screening, result, *grave) << " ("
                        << rule_name(*opened->screening, *grave) << ")\n";
      if (in_question.empty()) in_question = opened->book.samples.name[sample];
    }
    if (in_question.empty()) return;
    surroundings_.out << (options_.dry_run ? "once they are received, " : "") << "'driftwarden explain "
                      << for_terminal(options_.book.book) << ' ' << for_terminal(in_question)
                      << "' shows the whole working of one\n";
  }

  const ReceiveOptions& options_;
  const OpenedBook& opened_;
  std::string by_;
  Surroundings& surroundings_;
  Day day_;
};

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
  return Receiving(options, *opened, *by, surroundings).run();
}

}  // namespace driftwarden
