// SPDX-License-Identifier: MIT
#include "verdict/last_digits.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "statistics/multiple_tests.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_decimals = 6;
constexpr double on_the_grid = 1e-3;  // of a unit: what is closer differs by rounding only
constexpr std::int64_t cycle = 10;
constexpr double most_in_a_cycle = 0.25;
constexpr double least_p_told = 1e-6;

bool is_whole(double figure) { return std::abs(figure - std::round(figure)) < on_the_grid; }

// Units of the last decimal place in a litre per minute.
std::optional<double> units_in_a_litre(std::span<const FirstReading> readings) {
  for (std::size_t decimals = 0; decimals <= most_decimals; ++decimals) {
    const double units = power_of_ten[decimals];
    const bool all_lie_on_it = std::all_of(readings.begin(), readings.end(), [units](const FirstReading& reading) {
      return is_whole(reading.indicated_l_min * units);
    });
    if (all_lie_on_it) return units;
  }
  return std::nullopt;
}

// In units of the last digit, in order; without those that the pump may have been set to.
std::vector<std::int64_t> counted_in(std::span<const FirstReading> readings, double units) {
  std::vector<std::int64_t> counted;
  for (const FirstReading& reading : readings) {
    const std::int64_t count = std::llround(reading.indicated_l_min * units);
    if (!is_missing(reading.set_to_l_min)) {
      const std::int64_t above = count - std::llround(reading.set_to_l_min * units);
      if (above >= -cycle / 2 && above < cycle / 2) continue;
    }
    counted.push_back(count);
  }
  std::sort(counted.begin(), counted.end());
  return counted;
}

bool lie_close_together(const std::vector<std::int64_t>& counted) {
  const auto most = static_cast<std::size_t>(most_in_a_cycle * static_cast<double>(counted.size()));
  for (std::size_t i = 0; i + most < counted.size(); ++i) {
    if (counted[i + most] - counted[i] < cycle) return true;
  }
  return false;
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
  std::vector<FirstReading> readings;
  std::vector<Row> rows;
};

std::map<Row, OfCalibrator> first_readings(const Book& book, const std::vector<Replicates>& all,
                                           const SamplerFacts& samplers) {
  std::map<Row, OfCalibrator> by_calibrator;
  for (const Replicates& set : all) {
    OfCalibrator& of = by_calibrator[set.calibrator];
    const bool is_set_to_nominal = set.stage == Stage::pre && set.sample != no_row;
    const double set_to = is_set_to_nominal ? nominal_flow(book.samples, samplers, set.sample) : missing;
    of.readings.push_back({set.indicated_l_min.front(), set_to});
    of.rows.push_back(set.rows.front());
  }
  return by_calibrator;
}

struct Uneven {
  Row calibrator = no_row;
  Row reading = no_row;  // the first of the book
  LastDigits digits;
  DigitCheck check;
};

Diagnostic told(const Book& book, const Uneven& uneven) {
  const Instrument& calibrator = book.instruments[uneven.calibrator];
  const std::size_t digit = uneven.digits.most_frequent();
  const auto possible = static_cast<double>(possible_last_digits(uneven.digits.step).size());
  const double p = uneven.check.upper_p;
  return remark(
      "doubt/last-digits", place_of(book, uneven.reading),
      "of " + std::to_string(uneven.check.readings) + " sets read with " + calibrator.name + ", here the first, " +
          std::to_string(uneven.digits.counts[digit]) + " begin with a reading that ends in " + std::to_string(digit) +
          "; chance makes about " + with_decimals(static_cast<double>(uneven.check.readings) / possible, 0) +
          ", and digits so uneven with p " +
          (p < least_p_told ? "< " + with_decimals(least_p_told, 6) : "= " + with_significant_digits(p, 2)),
      calibrator.resolution_l_min
          ? "ask how its display was read, and whether pumps were set by it until a round figure showed"
          : "state its resolution in instruments.csv; if that does not explain it, ask how its display was read");
}

}  // namespace

std::size_t LastDigits::readings() const { return std::accumulate(counts.begin(), counts.end(), std::size_t{0}); }

std::size_t LastDigits::most_frequent() const {
  return static_cast<std::size_t>(std::max_element(counts.begin(), counts.end()) - counts.begin());
}

std::optional<LastDigits> last_digits_of(std::span<const FirstReading> readings,
                                         std::optional<double> resolution_l_min) {
  const std::optional<double> units = units_in_a_litre(readings);
  if (!units) return std::nullopt;
  const std::vector<std::int64_t> counted = counted_in(readings, *units);
  if (counted.size() < fewest_last_digits || lie_close_together(counted)) return std::nullopt;
  LastDigits digits;
  for (const std::int64_t count : counted) ++digits.counts[static_cast<std::size_t>(count % cycle)];
  digits.step = resolution_l_min ? step_stated(*resolution_l_min * *units) : step_seen(digits.counts);
  if (digits.step == 0) return std::nullopt;
  return digits;
}

void note_last_digits(const Book& book, const std::vector<Replicates>& all, const SamplerFacts& samplers,
                      Diagnostics& doubts) {
  std::vector<Uneven> tested;
  std::vector<double> p_values;
  for (const auto& [calibrator, of] : first_readings(book, all, samplers)) {
    const std::optional<LastDigits> digits = last_digits_of(of.readings, book.instruments[calibrator].resolution_l_min);
    if (!digits) continue;
    const std::optional<DigitCheck> check = check_last_digits(digits->counts, digits->step);
    if (!check || check->readings < fewest_last_digits) continue;
    tested.push_back({calibrator, of.rows.front(), *digits, *check});
    p_values.push_back(check->upper_p);
  }
  const std::vector<double> adjusted = holm(p_values);
  for (std::size_t i = 0; i < tested.size(); ++i) {
    if (adjusted[i] < rarest_last_digits) doubts.push_back(told(book, tested[i]));
  }
}

}  // namespace driftwarden
