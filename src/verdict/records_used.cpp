// SPDX-License-Identifier: MIT
#include "verdict/records_used.hpp"

namespace driftwarden {
void RecordsUsed::note(const Screening& screening, const SampleResult& result) {
  const SampleAssessment& figures = *result.figures;
  samples.insert(figures.sample);
  readings.insert(figures.rows.begin(), figures.rows.end());
  const Row pump = field(screening.book().samples.pump, figures.sample, no_row);
  if (pump != no_row) instruments.insert(pump);
  for (const ReadingSet& set : figures.sets) {
    if (set.rows.calibrator != no_row) instruments.insert(set.rows.calibrator);
    for (const std::int32_t used : screening.basis().calibrators.certificates_of(figures.rows_of(set))) {
      if (used >= 0) certificates.insert(static_cast<Row>(used));
    }
  }
  for (const ResultFigures& of : result.results) {
    results.insert(of.result);
    for (const std::uint32_t blank : of.blanks->results) {
      results.insert(blank);
      samples.insert(screening.book().results[blank].sample);
    }
    controls.insert(of.controls->filters.begin(), of.controls->filters.end());
    const Weighing& weighing = of.weighing;
    if (weighing.balance != no_row) instruments.insert(weighing.balance);
    for (const std::int32_t used : {weighing.before.certificate, weighing.after.certificate}) {
      if (used >= 0) certificates.insert(static_cast<Row>(used));
    }
  }
  if (figures.kind == SampleKind::sample && is_missing(result.budget.about(BudgetFigure::volume).expanded))
    without_uncertainty.push_back(figures.sample);
}

void RecordsUsed::follow(const Screening& screening) {
  const Book& book = screening.book();
  std::vector<Row> to_follow(certificates.begin(), certificates.end());
  while (!to_follow.empty()) {
    const Certificate& certificate = book.certificates[to_follow.back()];
    to_follow.pop_back();
    if (certificate.instrument != no_row) instruments.insert(certificate.instrument);
    if (certificate.standard.empty()) continue;
    const std::int32_t next = screening.basis().standards.of(certificate, screening.basis().calibrators).certificate;
    if (next >= 0 && certificates.insert(static_cast<Row>(next)).second) to_follow.push_back(static_cast<Row>(next));
  }
  std::set<std::string_view> names;
  for (const Row sample : samples) names.insert(book.samples.name[sample]);
  for (Row row = 0; row < book.decisions.size(); ++row) {
    if (names.count(book.decisions[row].subject) > 0) decisions.insert(row);
  }
  for (Row row = 0; row < book.services.size(); ++row) {
    if (instruments.count(book.services[row].instrument) > 0) services.insert(row);
  }
  for (Row row = 0; row < book.issues.size(); ++row) {
    if (instruments.count(book.issues[row].instrument) > 0) issues.insert(row);
  }
}

}  // namespace driftwarden
