// SPDX-License-Identifier: MIT
#include "doubt/replicates.hpp"

#include <algorithm>
#include <cmath>

#include "assessment/bracket.hpp"
#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "statistics/dixon.hpp"
#include "statistics/mean_and_spread.hpp"

namespace driftwarden {
namespace {

constexpr double significance = 0.01;
constexpr std::size_t fewest_for_grubbs = 7;
constexpr double smallest_difference = 1e-9;  // L/min; what is closer differs by rounding only

struct SetOwner {
  Row sample = no_row;
  Row pump = no_row;
};

Replicates made_of(const Book& book, SetOwner of, const SetRows& set, std::span<const Row> rows) {
  Replicates made{of.sample, of.pump, set.stage, set.calibrator, set.first, set.last, {}, {}};
  for (const Row row : rows.subspan(set.begin, set.count)) {
    const double indicated = book.readings.indicated_l_min[row];
    if (book.readings.flags[row] != 0 || is_missing(indicated)) continue;
    made.rows.push_back(row);
    made.indicated_l_min.push_back(indicated);
  }
  return made;
}

struct Gathered {
  std::size_t sets = 0;  // of three or more
  double step = 0;
  std::size_t pairs = 0;  // within sets
  std::size_t equal = 0;

  void add(const std::vector<double>& readings) {
    if (readings.size() >= fewest_in_a_set) ++sets;
    const double own = smallest_step(readings);
    if (own > 0 && (step == 0 || own < step)) step = own;
    for (std::size_t i = 0; i + 1 < readings.size(); ++i) {
      pairs += readings.size() - 1 - i;
      equal += static_cast<std::size_t>(
          std::count(readings.begin() + static_cast<std::ptrdiff_t>(i) + 1, readings.end(), readings[i]));
    }
  }
};

}  // namespace

std::string one_in(double chance) {
  constexpr double many = 1e6;
  return 1 / chance >= many ? "a million or more" : with_significant_digits(1 / chance, 2);
}

std::string how_often_in_books(double times_a_book) { return "once in " + one_in(times_a_book) + " honest books"; }

double smallest_step(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  double step = 0;
  for (std::size_t i = 1; i < values.size(); ++i) {
    const double apart = values[i] - values[i - 1];
    if (apart > smallest_difference && (step == 0 || apart < step)) step = apart;
  }
  return step;
}

bool Replicates::are_all_equal() const {
  const auto [smallest, largest] = std::minmax_element(indicated_l_min.begin(), indicated_l_min.end());
  return smallest != indicated_l_min.end() && *largest - *smallest <= smallest_difference;
}

Place place_of(const Book& book, Row reading) {
  const RowPlace at = book.readings.place[reading];
  return {book.files.readings[at.file], at.line, 0};
}

std::string_view owner_name(const Book& book, const Replicates& set) {
  return set.sample == no_row ? std::string_view(book.instruments[set.pump].name) : book.samples.name[set.sample];
}

bool ComeBy::has(Moment moment) const {
  return !last_ || moment == no_moment || local_day(moment, book_.settings.zone) <= *last_;
}

std::vector<Replicates> replicates_of(const Book& book, const ComeBy& come) {
  std::vector<Replicates> all;
  if (book.readings.size() == 0) return all;
  const ReadingIndex index(book);
  SetSplitter splitter;
  std::vector<Row> rows;
  std::vector<SetRows> sets;
  const auto add = [&](SetOwner of) {
    std::erase_if(rows, [&](Row row) { return !come.has_reading(row); });
    splitter.split(book.readings, rows, sets);
    for (const SetRows& set : sets) {
      Replicates made = made_of(book, of, set, rows);
      if (!made.rows.empty() && made.calibrator != no_row) all.push_back(std::move(made));
    }
  };
  for (Row sample = 0; sample < book.samples.size(); ++sample) {
    index.of_sample(sample, rows);
    add({sample, book.samples.pump[sample]});
  }
  const std::vector<std::vector<Row>> by_pump = rows_by_pump(book.readings, book.instruments.size());
  for (Row pump = 0; pump < by_pump.size(); ++pump) {
    rows = by_pump[pump];
    add({no_row, pump});
  }
  return all;
}

std::span<const Replicates> those_of_samples(const std::vector<Replicates>& all) {
  const auto end = std::ranges::find(all, no_row, &Replicates::sample);
  return std::span(all).first(static_cast<std::size_t>(end - all.begin()));
}

ScatterMap scatter_by_calibrator(const Book& book, const std::vector<Replicates>& all) {
  std::map<Row, Gathered> gathered;
  for (const Replicates& set : all) gathered[set.calibrator].add(set.indicated_l_min);
  ScatterMap by_calibrator;
  for (const auto& [calibrator, of] : gathered) {
    Scatter& scatter = by_calibrator[calibrator];
    scatter.step = book.instruments[calibrator].resolution_l_min.value_or(of.step);
    scatter.sets = of.sets;
    // One equal pair more than seen: none among few is no chance of zero.
    scatter.equal_pairs = static_cast<double>(of.equal + 1) / static_cast<double>(of.pairs + 1);
  }
  return by_calibrator;
}

double rarest_told(double rarest, std::size_t sets) {
  return std::min(rarest, 1 / static_cast<double>(std::max<std::size_t>(sets, 1)));
}

std::optional<OutlierCheck> far_out(std::span<const double> readings, double step) {
  if (readings.size() < fewest_in_a_set) return std::nullopt;
  const bool are_many = readings.size() >= fewest_for_grubbs;
  std::optional<OutlierCheck> check = are_many ? grubbs(readings, Suspect::either_end, significance)
                                               : dixon(readings, Suspect::either_end, significance);
  if (!check) return std::nullopt;
  const MeanAndSpread spread = mean_and_spread(readings);
  const double rounding = step > 0 ? step : smallest_step({readings.begin(), readings.end()});
  check->statistic -= rounding / (are_many ? spread.s : spread.range());
  check->significant = check->statistic > check->critical;
  return check->significant ? check : std::nullopt;
}

}  // namespace driftwarden
