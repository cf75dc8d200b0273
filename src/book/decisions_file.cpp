// SPDX-License-Identifier: MIT
#include <array>

#include "book/row_blocks.hpp"
#include "book/sample_names.hpp"
#include "book/stamp_text.hpp"
#include "book/table_files.hpp"

namespace driftwarden {
namespace {

enum Field : int { decided, by, subject, rule, ruling, reason };
constexpr std::array<FieldSpec, 6> fields{{
    {decided, "decided", CellType::moment, Dimension::count, true},
    {by, "by", CellType::text, Dimension::count, true},
    {subject, "subject", CellType::text, Dimension::count, true},
    {rule, "rule", CellType::text, Dimension::count, true},
    {ruling, "ruling", CellType::word, Dimension::count, true},
    {reason, "reason", CellType::text, Dimension::count, true},
}};
static_assert(are_complete(fields, reason));
constexpr std::array<std::string_view, 2> rulings{"uphold", "overrule"};

// The samples by their names; none are needed where nothing was decided.
SampleIndex samples_by_name(const SampleTable& samples, bool has_decisions) {
  SampleIndex index(has_decisions ? samples.size() : 0, SampleNames{&samples});
  for (Row row = 0; has_decisions && row < samples.size(); ++row) index.enter(row);
  return index;
}

// A decision about a sample that nobody knows; where samples were lost, it may be one of them.
void report_unknown(const std::string& name, RowReader& row, const BookInHand& hand, UnknownSamples& unknown) {
  const ProblemNumber lost = hand.lost["samples"];
  if (lost != no_problem) return row.lean_on(lost);
  const ProblemNumber problem =
      row.fail(subject, "decision/unknown-sample", "the sample " + in_quotes(name) + " is in no samples file",
               "correct the name");
  if (problem != no_problem) unknown.emplace_back(name, problem);
}

}  // namespace

const TableSpec decisions_spec{"decisions", fields};

void read_decisions(const std::vector<TableFile>& files, const BookInHand& hand) {
  const SampleIndex samples = samples_by_name(hand.book.samples, !files.empty());
  UnknownSamples unknown;
  for (const TableFile& file : files) {
    RowReader row(hand.context(file, decisions_spec));
    const auto worker = [&](const CsvScanner& scanner, Row, std::uint32_t line) {
      row.start(scanner, line);
      Decision next;
      next.place = {file.number, line};
      next.decided = row.moment(decided);
      next.by = row.kept_text(by);
      next.subject = row.kept_text(subject);
      if (!next.subject.empty() && samples.find(next.subject) == no_row) {
        report_unknown(next.subject, row, hand, unknown);
      }
      next.rule = row.kept_text(rule);
      const int word = row.word(ruling, rulings);
      if (word >= 0) next.ruling = static_cast<Ruling>(word);
      next.reason = row.kept_text(reason);
      // A decision that can't be understood decides nothing.
      if (row.problem() == no_problem) hand.book.decisions.push_back(std::move(next));
    };
    read_rows_in_order(file, worker);
  }
  hint_at_samples(unknown, hand.book.samples, hand.problems);
}

std::vector<std::string> cells_of(const Decision& decision, const TimeZone& zone) {
  return {local_text(decision.decided, zone),    decision.by,    decision.subject, decision.rule,
          std::string(to_text(decision.ruling)), decision.reason};
}

}  // namespace driftwarden
