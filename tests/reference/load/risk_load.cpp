// SPDX-License-Identifier: MIT
// How near `risk` comes, from the figures of one fleet, to what a year brings on that fleet.
//     risk_load [SEED]        the table of docs/risk.md, in a minute
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include "statistics/global_risk.hpp"
#include "statistics/random_numbers.hpp"
#include "statistics/true_values.hpp"

namespace driftwarden::test {
namespace {

constexpr double limit = 5;  // percent, of a drift
constexpr std::size_t trials = 200;
constexpr std::size_t draws = 2000000;  // of the truth

enum class Kind { normal, unequal, with_slips, slides };
struct MadeFleet {
  Kind kind;
  const char* name;
  double u;
};

// One sample's true drift, percent.
double true_drift(Kind kind, std::size_t sample, RandomNumbers& random) {
  constexpr std::size_t pumps = 12;
  switch (kind) {
    case Kind::normal:
      return 2 * random.normal();
    case Kind::unequal:  // from 0.8 to 2.16 %
      return 0.8 * std::pow(2.7, static_cast<double>(sample % pumps) / (pumps - 1)) * random.normal();
    case Kind::with_slips:
      return random.uniform() < 0.03 ? 20 * (random.uniform() - 0.5) : random.normal();
    case Kind::slides:  // one pump in twelve loses more each time
      return sample % pumps == 0 ? -6 * random.uniform() + random.normal() : random.normal();
  }
  return 0;
}

struct Shares {
  double passed = 0;    // beyond the limit, and they pass
  double not_kept = 0;  // good, and they do not
};

Shares truth_of(const MadeFleet& fleet, RandomNumbers& random) {
  std::size_t passed = 0;
  std::size_t not_kept = 0;
  for (std::size_t i = 0; i < draws; ++i) {
    const double truth = true_drift(fleet.kind, i, random);
    const bool passes = std::fabs(truth + fleet.u * random.normal()) <= limit;
    passed += passes && std::fabs(truth) > limit ? 1U : 0U;
    not_kept += !passes && std::fabs(truth) <= limit ? 1U : 0U;
  }
  return {static_cast<double>(passed) / draws, static_cast<double>(not_kept) / draws};
}

Shares estimate_of(const MadeFleet& fleet, std::size_t n, RandomNumbers& random) {
  std::vector<double> figures;
  for (std::size_t i = 0; i < n; ++i) figures.push_back(true_drift(fleet.kind, i, random) + fleet.u * random.normal());
  const TrueValues values = true_values_from(figures, std::vector<double>(n, fleet.u));
  Shares shares;
  for (const TrueValuePart& part : values.parts) {
    const GlobalRisk risk = global_risk({part.mean, part.s, fleet.u}, {-limit, limit}, {-limit, limit});
    shares.passed += risk.accepted_beyond / static_cast<double>(n);
    shares.not_kept += risk.rejected_within / static_cast<double>(n);
  }
  return shares;
}

// "3.1 (1.2 to 5.0)": the mean of all, and between which eight of ten lie, in a thousand.
void print_estimates(std::vector<double> all) {
  std::sort(all.begin(), all.end());
  double mean = 0;
  for (const double one : all) mean += one / static_cast<double>(all.size());
  std::printf(" %.1f (%.1f to %.1f) |", 1000 * mean, 1000 * all[all.size() / 10], 1000 * all[all.size() * 9 / 10]);
}

void print(const MadeFleet& fleet, RandomNumbers& random) {
  const Shares truth = truth_of(fleet, random);
  for (const std::size_t n : {std::size_t{48}, std::size_t{144}, std::size_t{600}}) {
    std::vector<double> passed;
    std::vector<double> not_kept;
    for (std::size_t i = 0; i < trials; ++i) {
      const Shares one = estimate_of(fleet, n, random);
      passed.push_back(one.passed);
      not_kept.push_back(one.not_kept);
    }
    std::printf("| %s | %.1f %% | %zu | %.1f |", fleet.name, fleet.u, n, 1000 * truth.passed);
    print_estimates(passed);
    std::printf(" %.1f |", 1000 * truth.not_kept);
    print_estimates(not_kept);
    std::printf("\n");
    std::fflush(stdout);
  }
}

}  // namespace
}  // namespace driftwarden::test

int main(int argc, char** argv) {
  using namespace driftwarden::test;
  RandomNumbers random(argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 1);
  std::printf(
      "| drifts | u | samples | bad that pass | as told | good that do not | as told "
      "|\n|---|--:|--:|--:|--:|--:|--:|\n");
  for (const double u : {0.2, 0.8}) {
    for (const MadeFleet& fleet : {MadeFleet{Kind::normal, "normal, 2 %", u},
                                   {Kind::unequal, "pumps unequal ×2.7", u},
                                   {Kind::with_slips, "1 %, and 3 in 100 up to 10 %", u},
                                   {Kind::slides, "1 %, and one pump in 12 to 6 %", u}})
      print(fleet, random);
  }
  return EXIT_SUCCESS;
}
