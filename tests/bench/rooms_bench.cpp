// SPDX-License-Identifier: MIT
// The rooms that every row and every sample passes through, one at a time.
#include <benchmark/benchmark.h>

#include <array>
#include <span>
#include <string>

#include "book/csv_scanner.hpp"
#include "book/timestamp.hpp"
#include "correction/corrected_reading.hpp"
#include "quantity/number.hpp"
#include "report/shortest_figure.hpp"
#include "rule/judgement.hpp"
#include "statistics/mean_and_spread.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view row = "2026-01-04T07:31,pre,S0000001,C044,1.9308,9.1,91.57\n";

std::string padded(std::string text) { return text + std::string(64, '\0'); }

void split_rows_of_csv(benchmark::State& state) {
  constexpr std::int64_t rows = 1000;
  std::string text;
  for (std::int64_t i = 0; i < rows; ++i) text += row;
  const std::size_t size = text.size();
  text = padded(text);
  for (auto _ : state) {
    CsvScanner scanner({text.data(), size}, ',');
    while (scanner.next()) benchmark::DoNotOptimize(scanner.text(0));
  }
  state.SetItemsProcessed(state.iterations() * rows);
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(size));
}
BENCHMARK(split_rows_of_csv);

void read_number(benchmark::State& state) {
  const std::string text = padded("1.9308");
  std::string_view written(text.data(), 6);
  for (auto _ : state) {
    benchmark::DoNotOptimize(written);
    benchmark::DoNotOptimize(number_from_padded(written));
  }
}
BENCHMARK(read_number);

void read_number_of_many_digits(benchmark::State& state) {
  std::string_view written = "1.93081234567";
  for (auto _ : state) {
    benchmark::DoNotOptimize(written);
    benchmark::DoNotOptimize(number_from(written));
  }
}
BENCHMARK(read_number_of_many_digits);

void read_stamps(benchmark::State& state, std::array<std::string_view, 2> stamps) {
  const TimeZone zone = TimeZone::utc();
  StampReader reader(zone, DateOrder::iso);
  Moment moment = 0;
  for (auto _ : state) {
    for (const std::string_view stamp : stamps) {
      reader.read(stamp, moment);
      benchmark::DoNotOptimize(moment);
    }
  }
  state.SetItemsProcessed(static_cast<std::int64_t>(2 * state.iterations()));
}
BENCHMARK_CAPTURE(read_stamps, of_one_day, {"2026-01-04T07:31", "2026-01-04T07:32"});
BENCHMARK_CAPTURE(read_stamps, of_two_days, {"2026-01-04T07:31", "2026-01-05T07:32"});

void correct_rotameter_reading(benchmark::State& state) {
  const FactorInputs air{282.25, 91.57, missing, Temperature(293.15), Pressure(101.325), Temperature(293.15), {}};
  const std::array<ErrorPoint, 3> curve{{{1.004, 0.004}, {1.982, -0.009}, {3.015, 0.005}}};
  double indicated_l_min = 1.9308;
  for (auto _ : state) {
    benchmark::DoNotOptimize(indicated_l_min);
    benchmark::DoNotOptimize(correct_reading(indicated_l_min, Principle::rotameter, curve, air));
  }
}
BENCHMARK(correct_rotameter_reading);

void mean_of_five(benchmark::State& state) {
  std::array<double, 5> flows{1.9791, 1.9843, 1.9688, 1.9902, 1.9765};
  for (auto _ : state) {
    benchmark::DoNotOptimize(flows);
    benchmark::DoNotOptimize(mean_and_spread(flows));
  }
}
BENCHMARK(mean_of_five);

void judge_one_rule(benchmark::State& state) {
  Rule rule;
  rule.limit.low = -0.05;
  rule.limit.high = 0.05;
  MeasureValue drift{-0.026, -0.05, {}};
  for (auto _ : state) {
    benchmark::DoNotOptimize(drift);
    benchmark::DoNotOptimize(judge(rule, drift));
  }
}
BENCHMARK(judge_one_rule);

void write_figure(benchmark::State& state) {
  std::string text;
  double figure = 1.97907645213077;
  for (auto _ : state) {
    text.clear();
    benchmark::DoNotOptimize(figure);
    append_figure(text, figure);
    benchmark::DoNotOptimize(text.data());
  }
}
BENCHMARK(write_figure);

}  // namespace
}  // namespace driftwarden
