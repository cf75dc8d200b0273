// SPDX-License-Identifier: MIT
// How many false actions a weekly page brings on honest pumps, and after how many uses it finds those that are not.
//     signal_load [SEED]           the tables of docs/history.md, in minutes
//     signal_load FIRST SEEDS      the load alone, a page of every fleet from each of so many seeds
#include <cstdio>
#include <cstdlib>
#include <initializer_list>
#include <string>

#include "support/fleet.hpp"

namespace driftwarden::test {
namespace {

constexpr double false_actions_a_week = 1;
constexpr std::size_t pages_times_pumps = 4000;  // pages of a figure of the table: this over the pumps
constexpr std::size_t fewest_pages = 60;

// The pumps with an action on a page of a fleet that is made anew.
std::size_t actions_on_a_page(const Fleet& fleet, RandomNumbers& random) {
  const std::size_t uses = fleet.points + uses_a_week;
  std::vector<std::vector<Series>> pumps = made_fleet(fleet, uses, random);
  for (auto& pump : pumps) {
    for (Series& series : pump) round_points(series, fleet.rounded_to);
  }
  return pumps_with_an_action(pumps, uses, false_actions_a_week).size();
}

// On average, of pages from one seed.
double mean_actions(const Fleet& fleet, RandomNumbers& random) {
  const std::size_t pages = std::max(fewest_pages, pages_times_pumps / fleet.pumps);
  std::size_t actions = 0;
  for (std::size_t page = 0; page < pages; ++page) actions += actions_on_a_page(fleet, random);
  return static_cast<double>(actions) / static_cast<double>(pages);
}

// A page from each seed.
struct Seeds {
  unsigned long first = 0;
  unsigned long count = 0;
};
double mean_actions(const Fleet& fleet, const Seeds& seeds) {
  std::size_t actions = 0;
  for (unsigned long seed = seeds.first; seed < seeds.first + seeds.count; ++seed) {
    RandomNumbers random(seed);
    actions += actions_on_a_page(fleet, random);
  }
  return static_cast<double>(actions) / static_cast<double>(seeds.count);
}

template <class Source>
double print_load(Source&& random) {
  double most = 0;
  std::printf(
      "| pumps | points before | φ | equal | unequal ×2.7 | unequal, rounded to 0.5 %% |\n|--:|--:|--:|--:|--:|--:|\n");
  for (const std::size_t pumps : std::initializer_list<std::size_t>{5, 12, 40, 200}) {
    for (const std::size_t points : std::initializer_list<std::size_t>{10, 20, 60}) {
      for (const double phi : {0.0, 0.3, 0.6}) {
        std::printf("| %zu | %zu | %.1f |", pumps, points, phi);
        for (const auto& [unequal, rounded] : {std::pair{1.0, 0.0}, {2.7, 0.0}, {2.7, 0.5}}) {
          Fleet fleet;
          fleet.pumps = pumps;
          fleet.points = points;
          fleet.phi = phi;
          fleet.unequal = unequal;
          fleet.rounded_to = rounded;
          const double actions = mean_actions(fleet, random);
          most = std::max(most, actions);
          std::printf(" %.2f |", actions);
        }
        std::printf("\n");
        std::fflush(stdout);
      }
    }
  }
  return most;
}

// After how many uses the first pump is found; 0: not within the uses looked at.
std::size_t uses_until_found(const Fleet& fleet, RandomNumbers& random) {
  constexpr std::size_t most_uses = 40;
  std::vector<std::vector<Series>> pumps = made_fleet(fleet, fleet.points + most_uses, random);
  spoil(fleet, pumps[fleet.pumps / 2], fleet.points);
  for (auto& pump : pumps) {
    for (Series& series : pump) round_points(series, fleet.rounded_to);
  }
  for (std::size_t uses = fleet.points + uses_a_week; uses <= fleet.points + most_uses; uses += uses_a_week) {
    const auto found = pumps_with_an_action(pumps, uses, false_actions_a_week);
    if (std::find(found.begin(), found.end(), fleet.pumps / 2) != found.end()) return uses - fleet.points;
    if (fleet.slip != 0) return 0;  // the week after, it is one of the points before
  }
  return 0;
}

void print_power(const std::string& what, Fleet fleet, RandomNumbers& random) {
  constexpr std::size_t trials = 40;
  for (const double phi : {0.0, 0.3, 0.6}) {
    std::vector<std::size_t> uses;
    fleet.phi = phi;
    for (std::size_t trial = 0; trial < trials; ++trial) {
      const std::size_t found = uses_until_found(fleet, random);
      uses.push_back(found == 0 ? 999 : found);
    }
    std::sort(uses.begin(), uses.end());
    const auto never = std::count(uses.begin(), uses.end(), 999U);
    const auto text = [](std::size_t n) { return n == 999 ? std::string("-") : std::to_string(n); };
    std::printf("| %s | %zu | %.1f | %s | %s | %.0f %% |\n", what.c_str(), fleet.pumps, phi,
                text(uses[trials / 2]).c_str(), text(uses[trials * 9 / 10]).c_str(),
                100.0 * static_cast<double>(trials - static_cast<std::size_t>(never)) / trials);
    std::fflush(stdout);
  }
}

void print_powers(RandomNumbers& random) {
  std::printf(
      "\n| what | pumps | φ | half found after uses | nine of ten after | found within 40 "
      "|\n|---|--:|--:|--:|--:|--:|\n");
  for (const std::size_t pumps : std::initializer_list<std::size_t>{12, 40}) {
    const auto with = [&](auto set) {
      Fleet fleet;
      fleet.pumps = pumps;
      fleet.unequal = 2.7;
      set(fleet);
      return fleet;
    };
    print_power("drift of 0.5 % a month", with([](Fleet& fleet) { fleet.drift_a_month = 0.5; }), random);
    print_power("drift of 1 % a month", with([](Fleet& fleet) { fleet.drift_a_month = 1; }), random);
    print_power("drift of 2 % a month", with([](Fleet& fleet) { fleet.drift_a_month = 2; }), random);
    print_power("step of 3 %", with([](Fleet& fleet) { fleet.step = 3; }), random);
    print_power("scatter growing by 20 % a use", with([](Fleet& fleet) { fleet.scatter_a_use = 0.2; }), random);
    for (const double slip : {3.0, 5.0, 10.0}) {
      print_power("one slip of " + std::to_string(static_cast<int>(slip)) + " %",
                  with([&](Fleet& fleet) { fleet.slip = slip; }), random);
    }
  }
}

}  // namespace
}  // namespace driftwarden::test

int main(int argc, char** argv) {
  using namespace driftwarden::test;
  const unsigned long seed = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 1;
  const unsigned long seeds = argc > 2 ? std::strtoul(argv[2], nullptr, 10) : 0;
  RandomNumbers random(seed);
  const double most = seeds > 0 ? print_load(Seeds{seed, seeds}) : print_load(random);
  if (seeds == 0) print_powers(random);
  return most <= 1.5 * false_actions_a_week ? EXIT_SUCCESS : EXIT_FAILURE;
}
