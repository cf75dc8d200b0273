// SPDX-License-Identifier: MIT
#include <fstream>
#include <iostream>
#include <ostream>

#include "command/opened_book.hpp"
#include "command/output_file.hpp"
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

Totals write_all(const OpenedBook& opened, const std::vector<Row>& samples, const ScreenOptions& options,
                 bool has_colour, std::ostream& out, const std::string& version) {
  const Screening& screening = *opened.screening;
  const ScreenTable table(screening, samples, Paint(has_colour));
  std::string text;
  if (options.format == "csv") text = screen_csv_headings();
  if (options.format == "json") append_screen_json_head(text, screening, {version, opened.as_of});
  if (options.format == "table") text = table.head();
  out << text;
  std::vector<SampleFacts> facts(judges_subjects(opened.rules) ? samples.size() : 0);
  const Totals totals = write_samples(screening, samples, options.format, table, threads_of(options.book), facts, out);
  const std::vector<SubjectResult> subjects = judge_subjects(screening, facts, opened.as_of);
  text.clear();
  if (options.format == "json") append_screen_json_tail(text, screening, totals, subjects);
  if (options.format == "table") text = table.tail(totals, subjects);
  out << text << std::flush;
  return totals;
}

}  // namespace

int run_screen(const ScreenOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  const std::optional<std::vector<Row>> samples = selected_samples(*opened, options, surroundings);
  if (!samples) return cannot_be_used;
  if (is_of_the_book(opened->book, options.out)) {
    tell(surroundings.err, {over_the_book(options.out)});
    return cannot_be_used;
  }
  const bool is_whole_book = samples->size() == opened->book.samples.size();
  if (is_whole_book) tell_doubts(*opened, surroundings);
  std::ofstream file;
  if (!options.out.empty()) file.open(options.out, std::ios::binary);
  std::ostream& out = options.out.empty() ? surroundings.out : file;
  const bool has_colour = options.out.empty() && surroundings.out_is_terminal;
  const Totals totals = write_all(*opened, *samples, options, has_colour, out, surroundings.version);
  if (!options.out.empty() && !file) {
    tell(surroundings.err, {unwritable(options.out)});
    return cannot_be_used;
  }
  if (opened->has_faults()) return cannot_be_used;
  return totals.void_ + totals.undecided > 0 ? something_is_amiss : all_is_well;
}

}  // namespace driftwarden
