// SPDX-License-Identifier: MIT
#include "command/screen_results.hpp"

#include <optional>
#include <ostream>

#include "report/in_order.hpp"
#include "report/result_texts.hpp"
#include "report/screen_csv.hpp"
#include "report/screen_json.hpp"
#include "report/screen_sarif.hpp"
#include "report/screen_table.hpp"
#include "verdict/sample_days.hpp"
#include "verdict/subjects.hpp"

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
  std::vector<SampleFacts>& facts;  // one a sample of the book, or none where no rule asks

  void operator()(std::size_t first, std::size_t last, std::string& text) {
    Totals& block = totals[first / samples_a_block];
    for (std::size_t i = first; i < last; ++i) {
      const SampleResult& result = judge.judge(samples[i]);
      block.count(result.verdict, result.standing);
      if (!facts.empty()) facts[samples[i]] = facts_of(result);
      if (format == "csv") {
        append_screen_csv(text, screening, result);
      } else if (format == "results") {
        append_results_csv(text, screening, result);
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

// What is known of every sample that has come by a day, in the book's order: what was printed is in `facts`, the others
// are judged for it.
std::vector<SampleFacts> facts_of_book(const Screening& screening, std::vector<SampleFacts> facts, Day last,
                                       unsigned threads) {
  const SampleDays days(screening.book(), last);
  std::vector<Row> others;
  for (Row row = 0; row < facts.size(); ++row) {
    if (facts[row].sample == no_row && days.has_come(row)) others.push_back(row);
  }
  const auto make_judge = [&] {
    return [&, judge = SampleJudge(screening)](std::size_t first, std::size_t end, std::string&) mutable {
      for (std::size_t i = first; i < end; ++i) facts[others[i]] = facts_of(judge.judge(others[i]));
    };
  };
  write_in_order(others.size(), samples_a_block, threads, make_judge,
                 [](std::string_view, std::size_t, std::size_t) {});
  std::erase_if(facts, [&days](const SampleFacts& of) { return of.sample == no_row || !days.has_come(of.sample); });
  return facts;
}

// The problems of a book as the first results of a log, without a comma before them.
std::string sarif_of(const Diagnostics& problems) {
  std::string results;
  for (const Diagnostic& problem : problems) append_sarif(results, problem);
  return results.empty() ? results : results.substr(1);
}

}  // namespace

Totals write_screen(const OpenedBook& opened, const Selection& selected, const ScreenForm& form,
                    const std::string& version, std::ostream& out, const Advance& advance) {
  const Screening& screening = *opened.screening;
  const std::vector<Row>& samples = selected.samples;
  std::optional<ScreenTable> table;
  if (form.format == "table") table.emplace(screening, samples, Paint(form.has_colour));
  std::string text;
  if (form.format == "csv") text = screen_csv_headings();
  if (form.format == "results") text = results_csv_headings(opened.book);
  if (form.format == "json") append_screen_json_head(text, screening, {version, opened.as_of});
  if (form.format == "sarif") text = sarif_head(screening, version) + sarif_of(opened.book.problems);
  if (form.format == "table") text = table->head();
  out << text;
  std::vector<SampleFacts> facts(judges_subjects(opened.rules) ? opened.book.samples.size() : 0);
  const Totals totals = write_samples(screening, samples, form.format, table ? &*table : nullptr, form.threads, facts,
                                      opened.book.problems.empty(), out, advance);
  facts = facts_of_book(screening, std::move(facts), selected.last, form.threads);
  const std::vector<SubjectResult> subjects =
      subjects_of(opened.book, judge_subjects(screening, facts, opened.as_of), samples);
  text.clear();
  if (form.format == "json") append_screen_json_tail(text, screening, totals, subjects);
  if (form.format == "sarif") text = sarif_tail();
  if (form.format == "table") text = table->tail(totals, subjects);
  out << text << std::flush;
  return totals;
}

}  // namespace driftwarden
