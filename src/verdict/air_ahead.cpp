// SPDX-License-Identifier: MIT
#include "verdict/air_ahead.hpp"
#include "book/stamp_text.hpp"

#include <cmath>

namespace driftwarden {
namespace {

// The newest reading up to a day that counts and is of a kind; no_row: none.
template <class IsOfTheKind>
Row newest_reading(const Book& book, Day as_of, IsOfTheKind is_of_the_kind) {
  const ReadingTable& readings = book.readings;
  Row newest = no_row;
  for (Row row = 0; row < readings.size(); ++row) {
    if (readings.is_void(row) || readings.is_rejected(row) || !is_of_the_kind(row)) continue;
    const Moment taken = readings.taken[row];
    if (taken == no_moment || local_day(taken, book.settings.zone) > as_of) continue;
    if (newest == no_row || taken >= readings.taken[newest]) newest = row;
  }
  return newest;
}

Row newest_with(const Book& book, Day as_of, const DecimalColumn& column) {
  return newest_reading(book, as_of, [&column](Row row) { return !is_missing(field(column, row)); });
}

std::string as_at(const Book& book, Row reading) {
  return "as at the last reading, " + date_text(local_day(book.readings.taken[reading], book.settings.zone));
}

double to_steps(double figure, double step) { return std::round(figure / step) * step; }

}  // namespace

AirExpected air_expected(const Screening& screening, const SaidAir& said, Day as_of) {
  const Book& book = screening.book();
  const ReadingTable& readings = book.readings;
  const auto take = [&](const std::optional<double>& given, const DecimalColumn& column, double& figure,
                        std::string& from) {
    if (given) {
      figure = *given;
      from = "as given";
    } else if (const Row newest = newest_with(book, as_of, column); newest != no_row) {
      figure = field(column, newest);
      from = as_at(book, newest);
    }
  };
  AirExpected expected;
  AirAhead& air = expected.air;
  take(said.temperature_k, readings.temperature_k, air.temperature_k, expected.temperature_from);
  take(said.pressure_kpa, readings.pressure_kpa, air.pressure_kpa, expected.pressure_from);
  take(said.humidity, readings.humidity, air.humidity, expected.humidity_from);
  if (!said.temperature_k && !is_missing(air.temperature_k))
    air.temperature_k = zero_celsius_in_kelvin + to_steps(air.temperature_k - zero_celsius_in_kelvin, 5);
  if (!said.pressure_kpa && !is_missing(air.pressure_kpa)) air.pressure_kpa = to_steps(air.pressure_kpa, 1);
  if (const auto site = screening.basis().calibrators.site_pressure_kpa(); site && is_missing(air.pressure_kpa)) {
    air.pressure_kpa = to_steps(*site, 1);
    expected.pressure_from = "at the site's altitude";
  }
  return expected;
}

Row calibrator_used_last(const Book& book, Day as_of) {
  const Column<Row>& calibrator = book.readings.calibrator;
  const Row newest = newest_reading(book, as_of, [&](Row row) { return calibrator[row] != no_row; });
  return newest == no_row ? no_row : calibrator[newest];
}

std::vector<double> around(double centre, double step, int each_side) {
  std::vector<double> figures;
  for (int i = -each_side; i <= each_side; ++i) figures.push_back(centre + i * step);
  return figures;
}

}  // namespace driftwarden
