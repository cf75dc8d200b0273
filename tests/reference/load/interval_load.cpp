// SPDX-License-Identifier: MIT
// How often calibrators come back in tolerance when each of the five interval methods is followed, or what is
// recommended, and how many calibrations a year that takes.
//     interval_load [FIRST SEED [FLEETS]]        a fleet a line and seed; the table of docs/history.md, in minutes
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include "support/calibrator_years.hpp"

namespace driftwarden::test {
namespace {

struct NamedMethod {
  IntervalMethod method;
  const char* name;
};
constexpr NamedMethod methods[] = {{IntervalMethod::as_it_is, "a year, whatever is found"},
                                   {IntervalMethod::staircase, "staircase"},
                                   {IntervalMethod::control_chart, "control-chart"},
                                   {IntervalMethod::in_use_time, "in-use-time"},
                                   {IntervalMethod::in_service_check, "in-service-check"},
                                   {IntervalMethod::reliability, "reliability-target"},
                                   {IntervalMethod::as_recommended, "as recommended"},
                                   {IntervalMethod::as_recommended_with_checks, "as recommended, with checks"}};
struct NamedHabit {
  Habit habit;
  const char* name;
};
constexpr NamedHabit habits[] = {{Habit::drifts, "drift evenly"},
                                 {Habit::wanders, "wander"},
                                 {Habit::is_knocked, "are knocked"},
                                 {Habit::wears, "wear with use"}};

struct Seeds {
  unsigned long first = 1;
  unsigned long count = 40;
};

void print(const NamedHabit& habit, const NamedMethod& method, const Seeds& seeds) {
  const auto fleets = static_cast<double>(seeds.count);
  double share = 0;
  double calibrations = 0;
  int kept = 0;
  for (unsigned long seed = seeds.first; seed < seeds.first + seeds.count; ++seed) {
    RandomNumbers random(seed);
    const Kept one = CalibratorFleet({method.method, habit.habit}, random).kept();
    share += one.share_in_tolerance / fleets;
    calibrations += one.calibrations_a_year / fleets;
    kept += one.share_in_tolerance >= reliability_target ? 1 : 0;
  }
  std::printf("| %s | %s | %.0f %% | %.0f %% | %.2f |\n", habit.name, method.name, 100 * share, 100 * kept / fleets,
              calibrations);
  std::fflush(stdout);
}

}  // namespace
}  // namespace driftwarden::test

int main(int argc, char** argv) {
  using namespace driftwarden::test;
  Seeds seeds;
  if (argc > 1) seeds.first = std::strtoul(argv[1], nullptr, 10);
  if (argc > 2) seeds.count = std::strtoul(argv[2], nullptr, 10);
  std::printf(
      "| calibrators | method | found in tolerance | fleets with 90 %% or more | calibrations a year |\n"
      "|---|---|--:|--:|--:|\n");
  for (const NamedHabit& habit : habits) {
    for (const NamedMethod& method : methods) print(habit, method, seeds);
  }
  return EXIT_SUCCESS;
}
