// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <ostream>
#include <system_error>

#include "command/screen_results.hpp"
#include "command/selection.hpp"
#include "driftwarden/report/in_order.hpp"
#include "driftwarden/report/screen_csv.hpp"
#include "driftwarden/report/screen_json.hpp"
#include "driftwarden/report/screen_table.hpp"
#include "driftwarden/verdict/subjects.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t samples_a_block = 1024;

// One thread's part: judges its samples and writes them down.
struct BlockWriter {
  const Screening& screening;
  const std::vector<Row>& samples;
  const std::string& format;
  const ScreenTable& table;
  SampleJudge judge;
  std::vector<Totals>& totals;
  std::vector<SampleFacts>& facts;  // one a sample, or none where no rule asks

  void operator()(std::size_t first, std::size_t last, std::string& text) {
    Totals& block = totals[first / samples_a_block];
    for (std::size_t i = first; i < last; ++i) {
      const SampleResult& result = judge.judge(samples[i]);
      block.count(result.verdict);
      if (!facts.empty()) facts[i] = facts_of(result);
      if (format == "csv") {
        append_screen_csv(text, screening, result);
      } else if (format == "json") {
        append_screen_json(text, screening, result, i == 0);
      } else {
        table.append(text, result, i == 0 ? no_row : samples[i - 1]);
      }
    }
  }
};

Totals write_samples(const Screening& screening, const std::vector<Row>& samples, const std::string& format,
                     const ScreenTable& table, unsigned threads, std::vector<SampleFacts>& facts, std::ostream& out) {
  std::vector<Totals> of_blocks(samples.size() / samples_a_block + 1);
  write_in_order(
      samples.size(), samples_a_block, threads,
      [&] { return BlockWriter{screening, samples, format, table, SampleJudge(screening), of_blocks, facts}; },
      [&out](const std::string& text, std::size_t, std::size_t) {
        out.write(text.data(), static_cast<std::streamsize>(text.size()));
      });
  Totals totals;
  for (const Totals& block : of_blocks) totals += block;
  return totals;
}

// Whether a file to be written is one of the book's own.
bool is_of_the_book(const Book& book, const std::string& file) {
  std::vector<std::string> names{"book.toml"};
  for (const auto* table : {&book.files.instruments, &book.files.certificates, &book.files.samples,
                            &book.files.readings, &book.files.decisions}) {
    names.insert(names.end(), table->begin(), table->end());
  }
  std::error_code ignored;
  return std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    return std::filesystem::equivalent(book.folder / name, file, ignored);
  });
}

}  // namespace

Totals write_screen(const OpenedBook& opened, const std::vector<Row>& samples, const ScreenForm& form,
                    const std::string& version, std::ostream& out) {
  const Screening& screening = *opened.screening;
  const ScreenTable table(screening, samples, Paint(form.has_colour));
  std::string text;
  if (form.format == "csv") text = screen_csv_headings();
  if (form.format == "json") append_screen_json_head(text, screening, {version, opened.as_of});
  if (form.format == "table") text = table.head();
  out << text;
  std::vector<SampleFacts> facts(judges_subjects(opened.rules) ? samples.size() : 0);
  const Totals totals = write_samples(screening, samples, form.format, table, form.threads, facts, out);
  const std::vector<SubjectResult> subjects = judge_subjects(screening, facts, opened.as_of);
  text.clear();
  if (form.format == "json") append_screen_json_tail(text, screening, totals, subjects);
  if (form.format == "table") text = table.tail(totals, subjects);
  out << text << std::flush;
  return totals;
}

int run_screen(const ScreenOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  const std::optional<std::vector<Row>> samples = selected_samples(*opened, options, surroundings);
  if (!samples) return cannot_be_used;
  if (is_of_the_book(opened->book, options.out)) {
    tell(surroundings.err, {error("output/over-the-book", {options.out, 0, 0},
                                  "the results would replace a file of the book", "name another file")});
    return cannot_be_used;
  }
  const bool is_whole_book = samples->size() == opened->book.samples.size();
  if (is_whole_book) tell_doubts(*opened, surroundings);
  std::ofstream file;
  if (!options.out.empty()) file.open(options.out, std::ios::binary);
  std::ostream& out = options.out.empty() ? surroundings.out : file;
  const bool has_colour = options.out.empty() && surroundings.out_is_terminal;
  const Totals totals = write_screen(*opened, *samples, {options.format, has_colour, threads_of(options.book)},
                                     surroundings.version, out);
  if (!options.out.empty() && !file) {
    tell(surroundings.err, {error("output/unwritable", {options.out, 0, 0}, "the results could not be written",
                                  "check the folder, its rights and the room on the disk")});
    return cannot_be_used;
  }
  if (opened->has_faults()) return cannot_be_used;
  return totals.void_ + totals.undecided > 0 ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
