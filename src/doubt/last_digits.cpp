// SPDX-License-Identifier: MIT
#include "doubt/last_digits.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "statistics/median.hpp"
#include "statistics/multiple_tests.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_decimals = 6;
constexpr double on_the_grid = 1e-3;  // of a unit: what is closer differs by rounding only
constexpr std::int64_t cycle = 10;
constexpr double least_from_use_to_use = cycle / 2.0;

bool is_whole(double figure) { return std::abs(figure - std::round(figure)) < on_the_grid; }

// Units of the last decimal place in a litre per minute.
std::optional<double> units_in_a_litre(std::span<const FirstReadings> pumps) {
  for (std::size_t decimals = 0; decimals <= most_decimals; ++decimals) {
    const double units = power_of_ten[decimals];
    const auto lies_on_it = [units](double reading) { return is_whole(reading * units); };
    const bool all_lie_on_it = std::ranges::all_of(
        pumps, [&](const FirstReadings& readings) { return std::ranges::all_of(readings, lies_on_it); });
    if (all_lie_on_it) return units;
  }
  return std::nullopt;
}

bool differ_from_use_to_use(const FirstReadings& readings, double units) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < readings.size(); ++i) steps.push_back(units * std::abs(readings[i] - readings[i - 1]));
  return !steps.empty() && median(steps) >= least_from_use_to_use;
}

unsigned step_seen(const DigitCounts& counts) {
  unsigned step = cycle;
  for (unsigned digit = 1; digit < counts.size(); ++digit) {
    if (counts[digit] > 0) step = std::gcd(step, digit);
  }
  return step;
}

// The display's step in units of the last digit; 0 where the readings are finer than it, or in other units.
unsigned step_stated(double resolution_in_units) {
  if (resolution_in_units < 1) return 1;  // written down more coarsely than it shows
  const std::int64_t step = std::llround(resolution_in_units);
  return is_whole(resolution_in_units) && step < cycle ? static_cast<unsigned>(step) : 0;
}

struct OfCalibrator {
  std::vector<FirstReadings> pumps;
  Row first = no_row;
};

std::map<Row, OfCalibrator> first_readings(const Book& book, const std::vector<Replicates>& all,
                                           const SamplerFacts& samplers) {
  std::vector<const Replicates*> after;
  for (const Replicates& set : those_of_samples(all)) {
    if (set.stage == Stage::post && set.pump != no_row) after.push_back(&set);
  }
  std::ranges::stable_sort(after, {}, &Replicates::first);
  using PumpAtAFlow = std::tuple<Row, Row, double>;
  std::map<PumpAtAFlow, FirstReadings> by_pump;
  std::map<Row, OfCalibrator> by_calibrator;
  for (const Replicates* set : after) {
    const double nominal = nominal_flow(book.samples, samplers, set->sample);
    by_pump[{set->calibrator, set->pump, is_missing(nominal) ? 0 : nominal}].push_back(set->indicated_l_min.front());
    Row& first = by_calibrator[set->calibrator].first;
    first = std::min(first, set->rows.front());
  }
  for (auto& [key, readings] : by_pump) by_calibrator[std::get<0>(key)].pumps.push_back(std::move(readings));
  return by_calibrator;
}

struct Uneven {
  Row calibrator = no_row;
  Row reading = no_row;  // the first of the book
  LastDigits digits;
  DigitCheck check;
  double times_a_book = 1;
};

Diagnostic told(const Book& book, const Uneven& uneven) {
  const Instrument& calibrator = book.instruments[uneven.calibrator];
  const std::size_t digit = uneven.digits.most_frequent();
  const auto possible = static_cast<double>(possible_last_digits(uneven.digits.step).size());
  return remark(
      "doubt/last-digits", place_of(book, uneven.reading),
      "of " + std::to_string(uneven.check.readings) + " sets read with " + calibrator.name +
          " after sampling, here the first, " + std::to_string(uneven.digits.counts[digit]) +
          " begin with a reading that ends in " + std::to_string(digit) + "; chance makes about " +
          with_decimals(static_cast<double>(uneven.check.readings) / possible, 0) + ", and digits so uneven " +
          how_often_in_books(uneven.times_a_book),
      calibrator.resolution_l_min
          ? "ask how its display was read, and whether pumps were set by it until a round figure showed"
          : "state its resolution in instruments.csv; if that does not explain it, ask how its display was read");
}

}  // namespace

std::size_t LastDigits::readings() const { return std::accumulate(counts.begin(), counts.end(), std::size_t{0}); }

std::size_t LastDigits::most_frequent() const {
  return static_cast<std::size_t>(std::max_element(counts.begin(), counts.end()) - counts.begin());
}

std::optional<LastDigits> last_digits_of(std::span<const FirstReadings> pumps, std::optional<double> resolution_l_min) {
  const std::optional<double> units = units_in_a_litre(pumps);
  if (!units) return std::nullopt;
  LastDigits digits;
  for (const FirstReadings& readings : pumps) {
    if (!differ_from_use_to_use(readings, *units)) continue;
    for (const double reading : readings) {
      ++digits.counts[static_cast<std::size_t>(std::llround(reading * *units) % cycle)];
    }
  }
  if (digits.readings() < fewest_last_digits) return std::nullopt;
  digits.step = resolution_l_min ? step_stated(*resolution_l_min * *units) : step_seen(digits.counts);
  if (digits.step == 0) return std::nullopt;
  return digits;
}

void note_last_digits(const Book& book, const std::vector<Replicates>& all, const SamplerFacts& samplers,
                      Diagnostics& doubts) {
  std::vector<Uneven> tested;
  std::vector<double> p_values;
  for (const auto& [calibrator, of] : first_readings(book, all, samplers)) {
    const std::optional<LastDigits> digits = last_digits_of(of.pumps, book.instruments[calibrator].resolution_l_min);
    if (!digits) continue;
    const std::optional<DigitCheck> check = check_last_digits(digits->counts, digits->step);
    if (!check || check->readings < fewest_last_digits) continue;
    tested.push_back({calibrator, of.first, *digits, *check, 1});
    p_values.push_back(check->upper_p);
  }
  const std::vector<double> adjusted = holm(p_values);
  for (std::size_t i = 0; i < tested.size(); ++i) {
    tested[i].times_a_book = adjusted[i];
    if (adjusted[i] < false_doubts_a_book) doubts.push_back(told(book, tested[i]));
  }
}

}  // namespace driftwarden
