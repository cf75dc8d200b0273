// SPDX-License-Identifier: MIT
#include "report/screen_csv.hpp"

#include "report/csv_text.hpp"
#include "verdict/finding.hpp"
#include "verdict/message.hpp"

namespace driftwarden {
namespace {

void append_set(std::string& out, const ReadingSet* set, bool is_blank) {
  out += ',';
  if (set != nullptr) {
    out += std::to_string(set->flow.n);
  } else if (!is_blank) {
    out += '0';
  }
  out += ',';
  if (set != nullptr) append_figure(out, set->flow.mean);
  out += ',';
  if (set != nullptr) append_figure(out, set->flow.s);
}

struct Stretch {
  std::size_t begin = 0;
  std::size_t size = 0;
};

// A volume and its U. Where they stand.
Stretch append_volume(std::string& out, double volume_l, double expanded_l) {
  const std::size_t begin = out.size();
  append_figure(out, volume_l);
  out += ',';
  append_figure(out, expanded_l);
  return {begin, out.size() - begin};
}

void append_findings(std::string& out, const Screening& screening, const SampleResult& result) {
  std::string ids;
  for (const Finding& finding : result.findings) {
    if (!ids.empty()) ids += ';';
    ids += finding.rule == Finding::faulty_records ? std::string("faulty-records")
                                                   : screening.rules().rules[finding.rule].id;
  }
  append_csv(out, ids);
}

// Of what was accepted although the true value may well lie beyond the limit, and of what was not.
double largest_probability_beyond(const SampleResult& result) {
  double largest = missing;
  for (const auto* findings : {&result.findings, &result.near}) {
    for (const Finding& finding : *findings) largest = std::fmax(largest, finding.probability_beyond);
  }
  return largest;
}

// Every ruling in force on the sample's findings, "pack/id overruled by …", in the order of the findings.
void append_decisions(std::string& out, const Screening& screening, const SampleResult& result) {
  std::string texts;
  const Decision* last = nullptr;
  for (const Finding& finding : result.findings) {
    if (finding.decision == nullptr || finding.decision == last) continue;
    last = finding.decision;
    if (!texts.empty()) texts += "; ";
    texts += last->rule + " " + ruling_text(screening.book(), *last);
  }
  append_csv(out, texts);
}

}  // namespace

std::string_view screen_csv_headings() {
  return "sample,batch,verdict,pump,minutes,pre_n,pre_l_min,pre_sd_l_min,post_n,post_l_min,post_sd_l_min,drift_percent,"
         "flow_l_min,volume_l,volume_expanded_uncertainty_l,volume_reference_l,findings,guard,probability_beyond,by_"
         "decision,decisions,volume_is,measured_volume_l,measured_volume_expanded_uncertainty_l\n";
}

void append_screen_csv(std::string& out, const Screening& screening, const SampleResult& result) {
  const Book& book = screening.book();
  const SampleAssessment& figures = *result.figures;
  const Row row = figures.sample;
  const bool is_blank = figures.kind == SampleKind::blank;
  append_csv(out, book.samples.name[row]);
  out += ',';
  append_csv(out, book.texts.text(field(book.samples.batch, row, TextId{0})));
  out += ',';
  out += to_text(result.verdict);
  out += ',';
  if (book.samples.pump[row] != no_row) append_csv(out, book.instruments[book.samples.pump[row]].name);
  out += ',';
  append_figure(out, figures.minutes);
  append_set(out, figures.pre_set(), is_blank);
  append_set(out, figures.post_set(), is_blank);
  out += ',';
  append_figure(out, 100 * figures.drift);
  out += ',';
  append_figure(out, figures.flow_l_min);
  out += ',';
  const Stretch volume = append_volume(out, figures.volume_l, result.volume_expanded_l());
  out += ',';
  append_figure(out, figures.volume_reference_l);
  out += ',';
  if (!result.findings.empty()) append_findings(out, screening, result);
  out += ',';
  append_figure(out, book.settings.guard);
  out += ',';
  append_figure(out, largest_probability_beyond(result));
  out += ',';
  if (result.standing != result.verdict) out += to_text(result.standing);
  out += ',';
  if (!result.findings.empty()) append_decisions(out, screening, result);
  out += ',';
  if (!is_missing(figures.volume_l)) out += volume_is(figures);
  out += ',';
  if (figures.is_conventional) {
    append_volume(out, figures.measured_volume_l, result.budget.about(BudgetFigure::volume).expanded);
  } else {
    out.append(out, volume.begin, volume.size);  // the same once more
  }
  out += '\n';
}

}  // namespace driftwarden
