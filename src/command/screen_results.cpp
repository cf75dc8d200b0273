// SPDX-License-Identifier: MIT
#include "command/screen_results.hpp"

#include <optional>
#include <ostream>

#include "driftwarden/report/in_order.hpp"
#include "driftwarden/report/screen_csv.hpp"
#include "driftwarden/report/screen_json.hpp"
#include "driftwarden/report/screen_sarif.hpp"
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
  const ScreenTable* table;  // where one is written
  SampleJudge judge;
  std::vector<Totals>& totals;
  std::vector<SampleFacts>& facts;  // one a sample, or none where no rule asks

  void operator()(std::size_t first, std::size_t last, std::string& text) {
    Totals& block = totals[first / samples_a_block];
    for (std::size_t i = first; i < last; ++i) {
      const SampleResult& result = judge.judge(samples[i]);
      block.count(result.verdict, result.standing);
      if (!facts.empty()) facts[i] = facts_of(result);
      if (format == "csv") {
        append_screen_csv(text, screening, result);
      } else if (format == "json") {
        append_screen_json(text, screening, result, i == 0);
      } else if (format == "sarif") {
        append_sarif(text, screening, result);
      } else {
        table->append(text, result, i == 0 ? no_row : samples[i - 1]);
      }
    }
  }
};

Totals write_samples(const Screening& screening, const std::vector<Row>& samples, const std::string& format,
                     const ScreenTable* table, unsigned threads, std::vector<SampleFacts>& facts, bool is_listed_first,
                     std::ostream& out, const Advance& advance) {
  std::vector<Totals> of_blocks(samples.size() / samples_a_block + 1);
  write_in_order(
      samples.size(), samples_a_block, threads,
      [&] { return BlockWriter{screening, samples, format, table, SampleJudge(screening), of_blocks, facts}; },
      [&, drops_comma = is_listed_first && format == "sarif"](std::string_view text, std::size_t,
                                                              std::size_t last) mutable {
        if (drops_comma && !text.empty()) {
          text.remove_prefix(1);
          drops_comma = false;
        }
        out.write(text.data(), static_cast<std::streamsize>(text.size()));
        if (advance) advance("judging", last, samples.size());
      });
  Totals totals;
  for (const Totals& block : of_blocks) totals += block;
  return totals;
}

// The problems of a book as the first results of a log, without a comma before them.
std::string sarif_of(const Diagnostics& problems) {
  std::string results;
  for (const Diagnostic& problem : problems) append_sarif(results, problem);
  return results.empty() ? results : results.substr(1);
}

}  // namespace

Totals write_screen(const OpenedBook& opened, const std::vector<Row>& samples, const ScreenForm& form,
                    const std::string& version, std::ostream& out, const Advance& advance) {
  const Screening& screening = *opened.screening;
  std::optional<ScreenTable> table;
  if (form.format == "table") table.emplace(screening, samples, Paint(form.has_colour));
  std::string text;
  if (form.format == "csv") text = screen_csv_headings();
  if (form.format == "json") append_screen_json_head(text, screening, {version, opened.as_of});
  if (form.format == "sarif") text = sarif_head(screening, version) + sarif_of(opened.book.problems);
  if (form.format == "table") text = table->head();
  out << text;
  std::vector<SampleFacts> facts(judges_subjects(opened.rules) ? samples.size() : 0);
  const Totals totals = write_samples(screening, samples, form.format, table ? &*table : nullptr, form.threads, facts,
                                      opened.book.problems.empty(), out, advance);
  const std::vector<SubjectResult> subjects = judge_subjects(screening, facts, opened.as_of);
  text.clear();
  if (form.format == "json") append_screen_json_tail(text, screening, totals, subjects);
  if (form.format == "sarif") text = sarif_tail();
  if (form.format == "table") text = table->tail(totals, subjects);
  out << text << std::flush;
  return totals;
}

}  // namespace driftwarden
