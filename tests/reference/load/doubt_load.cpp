// SPDX-License-Identifier: MIT
// How often honest books are doubted, and how often what was made up is found.
//     doubt_load [FIRST SEED [BOOKS]]        a book a line and seed; the tables of docs/uncertainty.md, in minutes
#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include "doubt/doubtful.hpp"
#include "support/doubt_book.hpp"

namespace driftwarden::test {
namespace {

// A book from each seed.
struct Seeds {
  unsigned long first = 1;
  unsigned long count = 200;
};

// Of so many books, those with a doubt of each kind.
struct Counts {
  int identical = 0;
  int copied = 0;
  int last_digits = 0;
};

Counts counts_of(const DoubtBook& of, const Seeds& seeds) {
  Counts counts;
  for (unsigned long seed = seeds.first; seed < seeds.first + seeds.count; ++seed) {
    RandomNumbers random(seed);
    const Diagnostics doubts = doubts_of(book_of(doubt_book(of, random)));
    const auto is_told = [&](const char* id) {
      return std::ranges::any_of(doubts, [id](const Diagnostic& doubt) { return doubt.id == id; });
    };
    counts.identical += is_told("doubt/identical") ? 1 : 0;
    counts.copied += is_told("doubt/copied") ? 1 : 0;
    counts.last_digits += is_told("doubt/last-digits") ? 1 : 0;
  }
  return counts;
}

// How a display shows the scatter of its pumps.
struct Display {
  const char* name;
  int decimals;
  double steadiest;        // percent
  double from_use_to_use;  // percent
};
constexpr Display displays[] = {{"0.001, fine for its pumps", 3, 0.08, 0.4},
                                {"0.01, and hides their scatter", 2, 0.08, 0.4},
                                {"0.01, and their scatter is 1 to 3 steps", 2, 0.5, 2.5}};

template <typename Row>
void for_each_kind_of_book(Row row) {
  for (const Display& display : displays) {
    for (const bool are_unequal : {false, true}) {
      DoubtBook of;
      of.decimals = display.decimals;
      of.steadiest = display.steadiest;
      of.from_use_to_use = display.from_use_to_use;
      of.are_unequal = are_unequal;
      row(of, display.name, are_unequal ? "unequal ×2.7" : "equal");
    }
  }
}

void print_rates(const Seeds& seeds) {
  std::printf("| display | pumps | are set | identical | copied | last digits |\n|---|---|---|--:|--:|--:|\n");
  for_each_kind_of_book([&](DoubtBook of, const char* display, const char* pumps) {
    for (const bool is_set : {false, true}) {
      of.is_set_each_time = is_set;
      const Counts counts = counts_of(of, seeds);
      std::printf("| %s | %s | %s | %d | %d | %d |\n", display, pumps, is_set ? "each time" : "never", counts.identical,
                  counts.copied, counts.last_digits);
      std::fflush(stdout);
    }
  });
}

void print_power(const Seeds& seeds) {
  std::printf(
      "| display | pumps | seven alike | ten copied | five copied | one in three rounded |\n"
      "|---|---|--:|--:|--:|--:|\n");
  for_each_kind_of_book([&](DoubtBook of, const char* display, const char* pumps) {
    const auto found = [&](MadeUp what) {
      of.made_up = what;
      return counts_of(of, seeds);
    };
    const int alike = found(MadeUp::one_set_alike).identical;
    const int sample = found(MadeUp::a_sample_copied).copied;
    const int set = found(MadeUp::a_set_copied).copied;
    const int rounded = found(MadeUp::rounded_readings).last_digits;
    std::printf("| %s | %s | %d | %d | %d | %d |\n", display, pumps, alike, sample, set, rounded);
    std::fflush(stdout);
  });
}

}  // namespace
}  // namespace driftwarden::test

int main(int argc, char** argv) {
  driftwarden::test::Seeds seeds;
  if (argc > 1) seeds.first = std::strtoul(argv[1], nullptr, 10);
  if (argc > 2) seeds.count = std::strtoul(argv[2], nullptr, 10);
  driftwarden::test::print_rates(seeds);
  std::printf("\n");
  driftwarden::test::print_power({seeds.first, 100});
  return EXIT_SUCCESS;
}
