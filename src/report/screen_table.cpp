// SPDX-License-Identifier: MIT
#include "report/screen_table.hpp"

#include <algorithm>

#include "quantity/rounding.hpp"
#include "report/printed_figures.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/decision_risk.hpp"
#include "verdict/message.hpp"
#include "verdict/remarks.hpp"
#include "verdict/verdict_key.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t verdict_width = 9;
constexpr std::size_t minutes_width = 6;
constexpr std::size_t flow_width = 6;
constexpr std::size_t drift_width = 7;
constexpr std::size_t volume_width = 7;
constexpr std::size_t uncertainty_width = 4;
// What the other columns and the blanks between them leave of the page to samples' and pumps' names.
constexpr std::size_t names_width = 19;
constexpr std::size_t usual_pump_width = 8;

std::string title_line(const Settings& settings) {
  return settings.title + "\n" +
         "Flows in L/min, actual, at the conditions of the readings; volumes in L: actual, its expanded uncertainty U "
         "(95 %), and at " +
         conditions_text(settings.reference) + " (ref.).";
}

// "of these, by decision: 1 counts as valid, 2 count as qualified", with its line end; "" where no decision changes how
// a sample stands.
std::string by_decision_text(const Totals& totals) {
  std::string parts;
  const auto add = [&parts](std::size_t count, Verdict verdict) {
    if (count == 0) return;
    parts += (parts.empty() ? "" : ", ") + counted(count, "counts as ", "count as ") + std::string(to_text(verdict));
  };
  add(totals.valid_by_decision, Verdict::valid);
  add(totals.qualified_by_decision, Verdict::qualified);
  add(totals.undecided_by_decision, Verdict::undecided);
  return parts.empty() ? "" : "of these, by decision: " + parts + "\n";
}

}  // namespace

ScreenTable::ScreenTable(const Screening& screening, const std::vector<Row>& samples, Paint paint)
    : screening_(screening), paint_(paint), sample_width_(6), pump_width_(4) {
  for (const Row row : samples) {
    sample_width_ = std::max(sample_width_, characters_in(name_of(row)));
    pump_width_ = std::max(pump_width_, characters_in(pump_of(row)));
  }
  // Longer names stand on a line of their own.
  sample_width_ = std::min(sample_width_, names_width - std::min(pump_width_, usual_pump_width));
  pump_width_ = std::min(pump_width_, names_width - sample_width_);
}

std::string ScreenTable::name_of(Row sample) const { return for_terminal(screening_.book().samples.name[sample]); }

std::string ScreenTable::pump_of(Row sample) const {
  const Row pump = screening_.book().samples.pump[sample];
  return pump == no_row ? "" : for_terminal(screening_.book().instruments[pump].name);
}

std::string ScreenTable::head() const {
  const std::string title = title_line(screening_.book().settings);
  const std::size_t line_end = title.find('\n');
  std::string out = paint_.heading(for_terminal(title.substr(0, line_end))) + "\n" +
                    wrapped(title.substr(line_end + 1), 0, table_width);
  const std::string columns = left("sample", sample_width_) + " " + left("verdict", verdict_width) + " " +
                              left("pump", pump_width_) + " " + right("min", minutes_width) + " " +
                              right("pre", flow_width) + " " + right("post", flow_width) + " " +
                              right("drift %", drift_width) + " " + right("volume", volume_width) + " " +
                              right("U", uncertainty_width) + " " + right("ref.", volume_width);
  out += wrapped("Decision rule: " + decision_rule_text(screening_) + ".", 0, table_width);
  return out + "\n" + paint_.heading(columns) + "\n";
}

std::string ScreenTable::batch_of(Row sample) const {
  const Book& book = screening_.book();
  return for_terminal(book.texts.text(field(book.samples.batch, sample, TextId{0})));
}

void ScreenTable::append_batch(std::string& out, Row sample, Row previous) const {
  const std::string batch = batch_of(sample);
  if (previous != no_row && batch_of(previous) == batch) return;
  if (batch.empty() && previous == no_row) return;
  out += (previous == no_row ? "" : "\n") + paint_.faint(batch.empty() ? "without a batch" : "batch " + batch) + "\n";
}

void ScreenTable::append(std::string& out, const SampleResult& result, Row previous) const {
  append_batch(out, result.figures->sample, previous);
  append_figures(out, result);
  append_why(out, result);
}

void ScreenTable::append_figures(std::string& out, const SampleResult& result) const {
  const SampleAssessment& f = *result.figures;
  const std::string name = name_of(f.sample);
  const std::string pump = pump_of(f.sample);
  const bool name_fits = characters_in(name) <= sample_width_;
  const bool pump_fits = characters_in(pump) <= pump_width_;
  if (!name_fits || !pump_fits) out += wrapped(name + (pump_fits ? "" : ", pump " + pump), 0, table_width);
  const SampleFigures figures = figures_of(screening_, result);
  out += left(name_fits ? name : "", sample_width_) + " ";
  out += paint_.verdict(result.verdict, left(to_text(result.verdict), verdict_width)) + " ";
  if (f.kind == SampleKind::blank) {
    out += "blank\n";
    return;
  }
  out += left(pump_fits ? pump : "", pump_width_) + " ";
  out += right(figures.minutes, minutes_width) + " ";
  out += right(figures.pre, flow_width) + " " + right(figures.post, flow_width) + " ";
  out += right(figures.drift, drift_width) + " " + right(figures.volume, volume_width) + " ";
  out += right(figures.uncertainty, uncertainty_width) + " " + right(figures.volume_reference, volume_width);
  out.resize(out.find_last_not_of(' ') + 1);
  out += '\n';
}

void ScreenTable::append_why(std::string& out, const SampleResult& result) const {
  const auto line = [&](const std::string& text, std::size_t indent) {
    out += wrapped(for_terminal(text), sample_width_ + indent, table_width);
  };
  const auto message = [&](const Finding& finding) {
    return message_of(screening_, result, finding) + " (" + rule_name(screening_, finding) + ")";
  };
  for (const Finding& finding : result.findings) {
    line("- " + std::string(to_text(finding.judgement.outcome)) + ": " + message(finding), 1);
    if (finding.decision != nullptr) line(decision_text(screening_.book(), *finding.decision), 3);
  }
  if (result.standing != result.verdict) line("= " + standing_text(result), 1);
  for (const Finding& finding : result.near) line("- near: " + message(finding), 1);
  for (const std::string& remark : volume_remarks(screening_, result)) line("- remark: " + remark, 1);
}

std::string ScreenTable::tail(const Totals& totals, const std::vector<SubjectResult>& subjects) const {
  std::string apart;
  for (const SubjectResult& subject : subjects) {
    for (const SubjectFinding& finding : subject.findings) {
      apart += wrapped(for_terminal("- " + std::string(to_text(finding.judgement.outcome)) + ": " +
                                    message_of(screening_, finding) + " (" + rule_name(screening_, finding) + ")"),
                       0, table_width);
    }
  }
  if (!apart.empty())
    apart = "\n" + paint_.heading("Batches, pumps and calibrators, judged apart: the verdicts above leave them out") +
            "\n" + apart;
  const auto part = [this](std::size_t count, Verdict verdict) {
    return count == 0 ? std::to_string(count) + " " + std::string(to_text(verdict))
                      : paint_.verdict(verdict, std::to_string(count) + " " + std::string(to_text(verdict)));
  };
  return apart + "\n" + std::to_string(totals.samples) + (totals.samples == 1 ? " sample: " : " samples and blanks: ") +
         part(totals.valid, Verdict::valid) + ", " + part(totals.qualified, Verdict::qualified) + ", " +
         part(totals.undecided, Verdict::undecided) + ", " + part(totals.void_, Verdict::void_) + "\n" +
         by_decision_text(totals) + "\n" + wrapped(verdict_key_text(KeyOf::verdicts_and_findings), 0, table_width) +
         "\n" + wrapped(cautions, 0, table_width);
}

}  // namespace driftwarden
