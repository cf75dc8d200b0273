// SPDX-License-Identifier: MIT
#include "history/check_series.hpp"

#include <algorithm>
#include <map>

#include "book/stamp_text.hpp"
#include "history/certificate_series.hpp"

namespace driftwarden {
namespace {

Series series_against(const std::string& name, InstrumentKind kind) {
  Series series = empty_series("checked-against " + name, "Shows more than " + name, "%", "of what the reference was");
  set_unit_of(kind, series);
  return series;
}

Row certificate_on(const Screening& screening, Row instrument, const BenchCheck& check) {
  const Day on = local_day(check.checked, screening.book().settings.zone);
  const std::int32_t index = screening.basis().calibrators.certificate(instrument, on);
  return index < 0 ? no_row : static_cast<Row>(index);
}

}  // namespace

std::vector<Series> check_series(const Screening& screening, Row instrument, Day as_of,
                                 const std::vector<PhaseStart>& starts) {
  const Book& book = screening.book();
  const InstrumentKind kind = book.instruments[instrument].kind;
  std::map<Row, Series> by_reference;
  for (const BenchCheck& check : book.checks) {
    if (check.instrument != instrument || local_day(check.checked, book.settings.zone) > as_of) continue;
    Series& series = by_reference.try_emplace(check.against, series_against(book.instruments[check.against].name, kind))
                         .first->second;
    SeriesPoint point;
    point.at = check.checked;
    point.value = check.shown - check.reference;
    if (series.unit == "%") point.value *= 100 / check.reference;
    point.kind = PointKind::reference;
    point.certificate = certificate_on(screening, instrument, check);
    point.certificate_after = certificate_on(screening, check.against, check);
    series.points.push_back(point);
  }
  const Tolerance tolerance = tolerance_of(screening, certificates_of(book, instrument, as_of));
  std::vector<Series> all;
  for (auto& [against, series] : by_reference) {
    std::ranges::stable_sort(series.points, {}, &SeriesPoint::at);
    series.tolerance = tolerance;
    cut_into_phases(series, starts);
    all.push_back(std::move(series));
  }
  return all;
}

}  // namespace driftwarden
