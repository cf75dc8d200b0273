// SPDX-License-Identifier: MIT
#include "report/screen_csv.hpp"

#include "report/csv_text.hpp"
#include "verdict/finding.hpp"
#include "verdict/message.hpp"

namespace driftwarden {
namespace {

void put_set(CsvRow& row, const ReadingSet* set, bool is_blank) {
  if (set == nullptr) {
    is_blank ? row.none() : row.count(0);
    row.none();
    row.none();
  } else {
    row.count(set->flow.n);
    row.figure(set->flow.mean);
    row.figure(set->flow.s);
  }
}

// A volume and its U, as two cells.
class VolumeText {
 public:
  VolumeText(double volume_l, double expanded_l) : end_(put_figure(text_.data(), volume_l)) {
    *end_++ = ',';
    end_ = put_figure(end_, expanded_l);
  }
  operator std::string_view() const { return {text_.data(), static_cast<std::size_t>(end_ - text_.data())}; }

 private:
  std::array<char, 2 * longest_figure + 1> text_;
  char* end_;
};

std::string findings_text(const Screening& screening, const SampleResult& result) {
  std::string ids;
  for (const Finding& finding : result.findings) {
    if (!ids.empty()) ids += ';';
    ids += finding.rule == Finding::faulty_records ? std::string("faulty-records")
                                                   : screening.rules().rules[finding.rule].id;
  }
  return ids;
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
std::string decisions_text(const Screening& screening, const SampleResult& result) {
  std::string texts;
  const Decision* last = nullptr;
  for (const Finding& finding : result.findings) {
    if (finding.decision == nullptr || finding.decision == last) continue;
    last = finding.decision;
    if (!texts.empty()) texts += "; ";
    texts += last->rule + " " + ruling_text(screening.book(), *last);
  }
  return texts;
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
  const Row sample = figures.sample;
  const Row pump = book.samples.pump[sample];
  const bool is_blank = figures.kind == SampleKind::blank;
  const VolumeText volume(figures.volume_l, result.volume_expanded_l());
  CsvRow row(out);
  row.text(book.samples.name[sample]);
  row.text(book.texts.text(field(book.samples.batch, sample, TextId{0})));
  row.plain(to_text(result.verdict));
  row.text(pump == no_row ? std::string_view() : book.instruments[pump].name);
  row.figure(figures.minutes);
  put_set(row, figures.pre_set(), is_blank);
  put_set(row, figures.post_set(), is_blank);
  row.figure(100 * figures.drift);
  row.figure(figures.flow_l_min);
  row.plain(volume);
  row.figure(figures.volume_reference_l);
  row.text(findings_text(screening, result));
  row.figure(book.settings.guard);
  row.figure(largest_probability_beyond(result));
  row.plain(result.standing == result.verdict ? std::string_view() : to_text(result.standing));
  row.text(decisions_text(screening, result));
  row.plain(is_missing(figures.volume_l) ? std::string_view() : volume_is(figures));
  if (figures.is_conventional) {
    row.plain(VolumeText(figures.measured_volume_l, result.budget.about(BudgetFigure::volume).expanded));
  } else {
    row.plain(volume);  // the same once more
  }
}

}  // namespace driftwarden
