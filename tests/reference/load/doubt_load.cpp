// SPDX-License-Identifier: MIT
// How often honest books are doubted, and how often what was made up is found.
//     doubt_load [SEED]        the tables of docs/uncertainty.md, in minutes
#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include "doubt/doubtful.hpp"
#include "support/doubt_book.hpp"

namespace driftwarden::test {
namespace {

// Of so many books, those with a doubt of each kind.
struct Counts {
  int identical = 0;
  int copied = 0;
  int last_digits = 0;
};

Counts counts_of(const DoubtBook& of, int books, RandomNumbers& random) {
  Counts counts;
  for (int i = 0; i < books; ++i) {
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

template <typename Row>
void for_each_kind_of_book(Row row) {
  for (const int decimals : {3, 2}) {
    for (const bool are_unequal : {false, true}) {
      DoubtBook of;
      of.decimals = decimals;
      of.are_unequal = are_unequal;
      row(of);
    }
  }
}

void print_rates(RandomNumbers& random) {
  constexpr int books = 500;
  std::printf("| display | pumps | are set | identical | copied | last digits |\n|--:|---|---|--:|--:|--:|\n");
  for_each_kind_of_book([&](DoubtBook of) {
    for (const bool is_set : {false, true}) {
      of.is_set_each_time = is_set;
      const Counts counts = counts_of(of, books, random);
      std::printf("| %s | %s | %s | %d | %d | %d |\n", of.decimals == 3 ? "0.001" : "0.01",
                  of.are_unequal ? "unequal ×2.7" : "equal", is_set ? "each time" : "never", counts.identical,
                  counts.copied, counts.last_digits);
      std::fflush(stdout);
    }
  });
}

void print_power(RandomNumbers& random) {
  constexpr int books = 100;
  std::printf(
      "| display | pumps | seven alike | ten copied | five copied | one in three rounded |\n"
      "|--:|---|--:|--:|--:|--:|\n");
  for_each_kind_of_book([&](DoubtBook of) {
    const auto found = [&](MadeUp what) {
      of.made_up = what;
      return counts_of(of, books, random);
    };
    const int alike = found(MadeUp::one_set_alike).identical;
    const int sample = found(MadeUp::a_sample_copied).copied;
    const int set = found(MadeUp::a_set_copied).copied;
    const int rounded = found(MadeUp::rounded_readings).last_digits;
    std::printf("| %s | %s | %d | %d | %d | %d |\n", of.decimals == 3 ? "0.001" : "0.01",
                of.are_unequal ? "unequal ×2.7" : "equal", alike, sample, set, rounded);
    std::fflush(stdout);
  });
}

}  // namespace
}  // namespace driftwarden::test

int main(int argc, char** argv) {
  driftwarden::test::RandomNumbers random(argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 1);
  driftwarden::test::print_rates(random);
  std::printf("\n");
  driftwarden::test::print_power(random);
  return EXIT_SUCCESS;
}
