// SPDX-License-Identifier: MIT
#include "statistics/multiple_tests.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>

namespace driftwarden {

namespace {

std::vector<std::size_t> places_smallest_first(std::span<const double> p_values) {
  std::vector<std::size_t> places(p_values.size());
  std::iota(places.begin(), places.end(), std::size_t{0});
  std::ranges::stable_sort(places, {}, [&](std::size_t place) { return p_values[place]; });
  return places;
}

}  // namespace

std::vector<double> holm(std::span<const double> p_values) {
  const std::vector<std::size_t> places = places_smallest_first(p_values);
  std::vector<double> adjusted(p_values.size());
  double largest = 0;
  for (std::size_t j = 0; j < places.size(); ++j) {
    const auto tests_left = static_cast<double>(places.size() - j);
    largest = std::max(largest, std::min(1.0, tests_left * p_values[places[j]]));
    adjusted[places[j]] = largest;
  }
  return adjusted;
}

}  // namespace driftwarden
