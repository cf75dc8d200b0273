// SPDX-License-Identifier: MIT
#include "history/instrument_standing.hpp"

#include <algorithm>

#include "correction/due.hpp"
#include "history/certificate_series.hpp"

namespace driftwarden {
namespace {

void count_one(InstrumentUse& use, Day day, bool is_recent) {
  use.recent_samples += is_recent ? 1U : 0U;
  use.last_used = std::max(use.last_used, day);
}

// Each once, whatever was looked for on the sample.
void count_balances(std::vector<InstrumentUse>& uses, const SampleResult& result, bool is_recent) {
  std::vector<Row> counted;
  for (const ResultFigures& of : result.results) {
    const Row balance = of.weighing.balance;
    if (balance == no_row || std::find(counted.begin(), counted.end(), balance) != counted.end()) continue;
    counted.push_back(balance);
    count_one(uses[balance], of.weighing.after.day, is_recent);
    uses[balance].overdue_samples += of.overdue_min > 0 ? 1U : 0U;
  }
}

}  // namespace

bool InstrumentStanding::is_worth_a_line(const Book& book) const {
  return book.instruments[instrument].kind != InstrumentKind::pump || was_out();
}

bool InstrumentStanding::has_to_be_calibrated(const Book& book) const {
  const Instrument& of = book.instruments[instrument];
  return of.kind == InstrumentKind::calibrator || newest != nullptr || of.interval_d.has_value();
}

void count_use(std::vector<InstrumentUse>& uses, const Screening& screening, const SampleResult& result, Day day,
               bool is_recent) {
  const SampleAssessment& figures = *result.figures;
  const Row pump = screening.book().samples.pump[figures.sample];
  if (pump != no_row) count_one(uses[pump], day, is_recent);
  std::vector<Row> counted;
  for (const ReadingSet& set : figures.sets) {
    const Row calibrator = set.rows.calibrator;
    if (calibrator == no_row || std::find(counted.begin(), counted.end(), calibrator) != counted.end()) continue;
    counted.push_back(calibrator);
    count_one(uses[calibrator], day, is_recent);
    uses[calibrator].overdue_samples += set.overdue_min > 0 ? 1U : 0U;
  }
  count_balances(uses, result, is_recent && figures.kind == SampleKind::sample);
}

std::vector<InstrumentStanding> standings_of(const Screening& screening, const std::vector<InstrumentUse>& uses,
                                             Day as_of) {
  const Book& book = screening.book();
  std::vector<InstrumentStanding> standings;
  for (Row row = 0; row < book.instruments.size(); ++row) {
    const Instrument& instrument = book.instruments[row];
    InstrumentStanding standing{row, nullptr, no_day, true, uses[row]};
    if (const auto certificates = certificates_of(book, row, as_of); !certificates.empty()) {
      standing.newest = certificates.back();
      standing.due = due_day(*standing.newest, instrument);
    }
    standing.is_in_service = instrument.out_of_service == no_day || instrument.out_of_service > as_of;
    standings.push_back(standing);
  }
  return standings;
}

}  // namespace driftwarden
