// SPDX-License-Identifier: MIT
#include "statistics/dixon.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <vector>

namespace driftwarden {

namespace {

constexpr std::size_t fewest = 3;
constexpr std::size_t most = 30;
constexpr std::array<double, 5> levels = {0.10, 0.05, 0.025, 0.01, 0.005};

// Critical ratios, one row for each number of values from 3, one column a level.
// Source: computed for this project by quadrature of the exact distribution of the ratios, to the sixth decimal; the
// test repeats it. Dixon's printed table of 1951 differs by up to 0.006.
constexpr std::array<std::array<double, levels.size()>, most - fewest + 1> critical_ratios = {{
    {0.885579, 0.941262, 0.970213, 0.987980, 0.993972},  // 3
    {0.678716, 0.765533, 0.829750, 0.889417, 0.920657},  // 4
    {0.558093, 0.642357, 0.710239, 0.780986, 0.823196},  // 5
    {0.484007, 0.562424, 0.627511, 0.698275, 0.742698},  // 6
    {0.434076, 0.507330, 0.568952, 0.637219, 0.681075},  // 7
    {0.479548, 0.553982, 0.615004, 0.680890, 0.722256},  // 8
    {0.440203, 0.511171, 0.569954, 0.634233, 0.675180},  // 9
    {0.409905, 0.477885, 0.534578, 0.597059, 0.637207},  // 10
    {0.517464, 0.574871, 0.622331, 0.674356, 0.707654},  // 11
    {0.489805, 0.545685, 0.592132, 0.643369, 0.676392},  // 12
    {0.466761, 0.521246, 0.566716, 0.617101, 0.649730},  // 13
    {0.490686, 0.545509, 0.590813, 0.640528, 0.672444},  // 14
    {0.470306, 0.524027, 0.568587, 0.617679, 0.649320},  // 15
    {0.452696, 0.505399, 0.549250, 0.597713, 0.629043},  // 16
    {0.437302, 0.489068, 0.532253, 0.580103, 0.611113},  // 17
    {0.423710, 0.474614, 0.517178, 0.564443, 0.595134},  // 18
    {0.411604, 0.461713, 0.503699, 0.550411, 0.580793},  // 19
    {0.400740, 0.450115, 0.491562, 0.537753, 0.567841},  // 20
    {0.390923, 0.439618, 0.480565, 0.526266, 0.556073},  // 21
    {0.382000, 0.430064, 0.470542, 0.515784, 0.545326},  // 22
    {0.373846, 0.421321, 0.461362, 0.506173, 0.535463},  // 23
    {0.366358, 0.413284, 0.452915, 0.497320, 0.526372},  // 24
    {0.359453, 0.405863, 0.445110, 0.489132, 0.517960},  // 25
    {0.353060, 0.398986, 0.437870, 0.481532, 0.510148},  // 26
    {0.347119, 0.392590, 0.431132, 0.474453, 0.502868},  // 27
    {0.341581, 0.386622, 0.424841, 0.467839, 0.496063},  // 28
    {0.336402, 0.381036, 0.418949, 0.461641, 0.489684},  // 29
    {0.331546, 0.375795, 0.413418, 0.455819, 0.483689},  // 30
}};

// Neighbours passed over on the suspect's side, and values left out at the other end.
struct Ratio {
  std::size_t neighbours = 1;
  std::size_t left_out = 0;
};

Ratio ratio_for(std::size_t n) {
  if (n <= 7) return {1, 0};
  if (n <= 10) return {1, 1};
  if (n <= 13) return {2, 1};
  return {2, 2};
}

bool has_table_size(std::size_t n) { return n >= fewest && n <= most; }

std::vector<std::size_t> places_in_order(std::span<const double> values) {
  std::vector<std::size_t> places(values.size());
  std::iota(places.begin(), places.end(), std::size_t{0});
  std::ranges::stable_sort(places, {}, [&](std::size_t place) { return values[place]; });
  return places;
}

// The ratio of the last value in `places`; its range is zero only when the gap is.
double ratio_of_last(std::span<const double> values, std::span<const std::size_t> places) {
  const Ratio ratio = ratio_for(places.size());
  const double end = values[places.back()];
  const double gap = std::fabs(end - values[places[places.size() - 1 - ratio.neighbours]]);
  const double range = std::fabs(end - values[places[ratio.left_out]]);
  return range == 0 ? 0 : gap / range;
}

OutlierCheck farthest(std::span<const double> values, Suspect suspect) {
  std::vector<std::size_t> places = places_in_order(values);
  const OutlierCheck largest{places.back(), ratio_of_last(values, places), no_figure, false};
  std::ranges::reverse(places);
  const OutlierCheck smallest{places.back(), ratio_of_last(values, places), no_figure, false};
  if (suspect == Suspect::largest) return largest;
  if (suspect == Suspect::smallest) return smallest;
  return largest.statistic >= smallest.statistic ? largest : smallest;
}

bool has_range(std::span<const double> values) {
  if (!std::ranges::all_of(values, [](double value) { return std::isfinite(value); })) return false;
  const auto [smallest, largest] = std::ranges::minmax(values);
  return smallest < largest;
}

}  // namespace

double dixon_critical(std::size_t n, double one_sided_significance) {
  if (!has_table_size(n)) return no_figure;
  for (std::size_t column = 0; column < levels.size(); ++column) {
    if (std::fabs(levels[column] - one_sided_significance) < 1e-9) return critical_ratios[n - fewest][column];
  }
  return no_figure;
}

std::optional<OutlierCheck> dixon(std::span<const double> values, Suspect suspect, double significance) {
  const double one_sided = suspect == Suspect::either_end ? significance / 2 : significance;
  const double critical = dixon_critical(values.size(), one_sided);
  if (std::isnan(critical) || !has_range(values)) return std::nullopt;
  OutlierCheck check = farthest(values, suspect);
  check.critical = critical;
  check.significant = check.statistic > critical;
  return check;
}

}  // namespace driftwarden
