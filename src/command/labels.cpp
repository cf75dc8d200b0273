// SPDX-License-Identifier: MIT
#include <ostream>
#include <set>

#include "command/field_batch.hpp"
#include "command/output.hpp"
#include "report/label_sheet.hpp"

namespace driftwarden {
namespace {

LabelText of_sample(const SampleAhead& sample) {
  LabelText label{sample.name, {}};
  if (!sample.batch.empty() && sample.batch != sample.name) label.lines.push_back("batch " + sample.batch);
  if (sample.kind == SampleKind::blank) label.lines.emplace_back("blank");
  if (!sample.medium.empty()) label.lines.push_back(sample.medium);
  if (!sample.analysis.empty()) label.lines.push_back(sample.analysis);
  return label;
}

// Of each pump once.
std::vector<LabelText> of_pumps(const Book& book, const std::vector<SampleAhead>& samples) {
  std::vector<LabelText> labels;
  std::set<Row> seen;
  for (const SampleAhead& sample : samples) {
    if (sample.pump == no_row || !seen.insert(sample.pump).second) continue;
    const Instrument& pump = book.instruments[sample.pump];
    labels.push_back({pump.name, {}});
    if (!pump.serial.empty()) labels.back().lines.push_back("serial " + pump.serial);
    labels.back().lines.push_back("batch " + sample.batch);
  }
  return labels;
}

std::vector<LabelText> labels_of(const Book& book, const std::vector<SampleAhead>& samples, const std::string& of) {
  std::vector<LabelText> labels;
  if (of != "pumps") {
    for (const SampleAhead& sample : samples) labels.push_back(of_sample(sample));
  }
  if (of == "samples") return labels;
  for (LabelText& label : of_pumps(book, samples)) labels.push_back(std::move(label));
  return labels;
}

}  // namespace

int run_labels(const LabelsOptions& options, Surroundings& surroundings) {
  const std::unique_ptr<OpenedBook> opened = open_book(options.book, surroundings);
  if (opened == nullptr) return cannot_be_used;
  const std::optional<SamplesAhead> ahead = batch_ahead(*opened, options.batch, surroundings);
  if (!ahead || tell_over_the_book(opened->book, options.out, surroundings)) return cannot_be_used;
  const std::optional<std::string> format = format_meant(options.format, options.out, {"html", "pdf"}, surroundings);
  if (!format) return cannot_be_used;
  const LabelSheet sheet{options.batch, *label_size_named(options.size), options.skip,
                         labels_of(opened->book, ahead->samples, options.of)};
  const Diagnostics failures = write_page(label_sheet_page(sheet), *format, options.out, opened->as_of);
  if (!failures.empty()) return refuse(failures, surroundings);
  surroundings.out << options.out << '\n';
  return opened->has_faults() ? cannot_be_used : all_is_well;
}

}  // namespace driftwarden
