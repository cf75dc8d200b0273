// SPDX-License-Identifier: MIT
#include "doubt/doubtful.hpp"

#include <algorithm>

#include "correction/altitude.hpp"
#include "doubt/copied_blocks.hpp"
#include "doubt/equal_sets.hpp"
#include "doubt/kits_at_odds.hpp"
#include "doubt/last_digits.hpp"
#include "doubt/read_twice.hpp"
#include "doubt/replicates.hpp"
#include "doubt/results_at_odds.hpp"
#include "doubt/slips.hpp"
#include "doubt/times_at_odds.hpp"
#include "doubt/use_at_odds.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

// Weather keeps a station's pressure well within 5 % of the standard atmosphere's (common knowledge, from memory).
constexpr double most_that_weather_does = 0.05;
constexpr double lowest_at_sea_level_kpa = 97;
constexpr double highest_at_sea_level_kpa = 105;

void note_sea_level(const Book& book, const ComeBy& come, Diagnostics& doubts) {
  if (!book.settings.altitude_m || book.readings.pressure_kpa.empty()) return;
  const double here = pressure_at_altitude(*book.settings.altitude_m).value;
  const double least = std::max(here * (1 + most_that_weather_does), lowest_at_sea_level_kpa);
  std::size_t count = 0;
  Row first = no_row;
  for (Row row = 0; row < book.readings.size(); ++row) {
    const double pressure = book.readings.pressure_kpa[row];
    if (!(pressure > least && pressure < highest_at_sea_level_kpa) || !come.has_reading(row)) continue;
    if (count++ == 0) first = row;
  }
  if (count == 0) return;
  doubts.push_back(
      remark("doubt/sea-level", place_of(book, first),
             (count == 1 ? "a reading states a pressure of sea level, "
                         : std::to_string(count) + " readings, here the first, state pressures of sea level, ") +
                 with_decimals(book.readings.pressure_kpa[first], 2) + " kPa; the site's altitude has about " +
                 with_decimals(here, 1) + " kPa",
             "the pressure at the place is needed, not one reduced to sea level as weather reports give it"));
}

void note_other_samplers(const Book& book, const ComeBy& come, Diagnostics& doubts) {
  const auto own_of = [&book](Row row) {
    const Row sample = field(book.readings.sample, row, no_row);
    return sample == no_row ? TextId{0} : field(book.samples.sampler, sample, TextId{0});
  };
  std::size_t count = 0;
  Row first = no_row;
  for (Row row = 0; row < book.readings.sampler.size(); ++row) {
    const TextId read_with = book.readings.sampler[row];
    const TextId own = own_of(row);
    if (read_with == 0 || own == 0 || read_with == own || !come.has_reading(row)) continue;
    if (count++ == 0) first = row;
  }
  if (count == 0) return;
  doubts.push_back(remark("doubt/other-sampler", place_of(book, first),
                          (count == 1 ? "a reading was" : std::to_string(count) + " readings, here the first, were") +
                              " taken with the sampler " + in_quotes(book.texts.text(book.readings.sampler[first])) +
                              ", and the sample was drawn with " + in_quotes(book.texts.text(own_of(first))),
                          "the flow with another sampler in line is another; correct the one that is wrong"));
}

}  // namespace

Diagnostics doubts_of(const Book& book, const SamplerFacts& samplers, std::optional<Day> as_of) {
  Diagnostics doubts;
  if (book.readings.size() > most_readings_looked_through) {
    note_issues(book, as_of, doubts);
    note_results(book, as_of, doubts);
    return doubts;
  }
  const ComeBy come(book, as_of);
  std::vector<Replicates> all = replicates_of(book, come);
  const std::vector<ReadTwice> copies = read_twice(book, come);
  leave_out_copies(copies, all);
  const ScatterMap scatter = scatter_by_calibrator(book, all);
  note_read_twice(book, copies, doubts);
  note_equal_sets(book, all, scatter, doubts);
  note_slips(book, all, scatter, doubts);
  note_copies(book, all, scatter, doubts);
  note_last_digits(book, all, samplers, doubts);
  const std::span<const Replicates> of_samples = those_of_samples(all);
  note_two_places(book, of_samples, doubts);
  note_warm_up(book, come, of_samples, doubts);
  note_sea_level(book, come, doubts);
  note_other_samplers(book, come, doubts);
  note_kits(book, come, as_of, all, doubts);
  note_use(book, come, all, doubts);
  note_results(book, as_of, doubts);
  return doubts;
}

}  // namespace driftwarden
