// SPDX-License-Identifier: MIT
// How often the cross-check speaks of calibrators in honest books, and how often it finds one that is wrong.
//     cross_check_load [SEED]        the table of docs/history.md, in a minute
#include <cstdio>
#include <cstdlib>
#include <numeric>

#include "history/calibrator_cross_check.hpp"
#include "support/calibrator_book.hpp"

namespace driftwarden::test {
namespace {

constexpr std::size_t books = 200;

// What is said of a book's calibrators.
std::vector<CalibratorSuspicion> said_about(const BookText& text) {
  const JudgedBook book(text, rules_of_calibrator_books());
  std::vector<Row> all(book.book().instruments.size());
  std::iota(all.begin(), all.end(), Row{0});
  const auto histories = histories_of(book.screening(), all, review_of_calibrator_books, {});
  const CrossReadings readings = cross_readings(book.screening(), histories, review_of_calibrator_books);
  return suspicions_among(readings, allowed_errors(book.screening(), review_of_calibrator_books), laxest_chance);
}

struct Counts {
  int told = 0;     // V3 is named
  int wrongly = 0;  // another is
  int open = 0;     // something is wrong, and what can't be told
};

Counts counts_of(CalibratorBook of, bool are_within_tolerance, RandomNumbers& random) {
  Counts counts;
  for (std::size_t i = 0; i < books; ++i) {
    if (are_within_tolerance) {
      for (double& error : of.errors) error = random.rectangular(tolerance_unless_stated);
    }
    for (const CalibratorSuspicion& suspicion : said_about(calibrator_book(of, random))) {
      constexpr Row third = 2;
      ++(!suspicion.is_told ? counts.open : suspicion.by.calibrator == third ? counts.told : counts.wrongly);
    }
  }
  return counts;
}

void print(const char* what, const CalibratorBook& of, bool are_within_tolerance, RandomNumbers& random) {
  for (const bool is_messy : {false, true}) {
    for (const double phi : {0.0, 0.6}) {
      CalibratorBook book = of;
      book.is_messy = is_messy;
      book.phi = phi;
      const Counts counts = counts_of(book, are_within_tolerance, random);
      std::printf("| %s | %s | %.1f | %d | %d | %d |\n", what, is_messy ? "messy" : "clean", phi, counts.told,
                  counts.wrongly, counts.open);
      std::fflush(stdout);
    }
  }
}

void print_all(RandomNumbers& random) {
  std::printf(
      "| calibrators | records | φ | V3 named | another named | not to be told which |\n|---|---|--:|--:|--:|--:|\n");
  CalibratorBook of;
  print("in order, each off by anything up to its 2 %", of, true, random);
  of.is_pump_set_each_time = true;
  print("the same, pumps set at each use", of, true, random);
  of.is_pump_set_each_time = false;
  of.keeps_its_calibrator = true;
  print("the same, each pump keeps its calibrator", of, true, random);
  of.keeps_its_calibrator = false;
  for (const double error : {4.0, 6.0}) {
    of.errors = {0.4, -0.3, error};
    of.is_pump_set_each_time = false;
    const std::string what = "V3 " + std::to_string(static_cast<int>(error)) + " % high";
    print(what.c_str(), of, false, random);
    of.is_pump_set_each_time = true;
    print((what + ", pumps set at each use").c_str(), of, false, random);
  }
}

}  // namespace
}  // namespace driftwarden::test

int main(int argc, char** argv) {
  driftwarden::test::RandomNumbers random(argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 1);
  driftwarden::test::print_all(random);
  return EXIT_SUCCESS;
}
