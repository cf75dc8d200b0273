// SPDX-License-Identifier: MIT
#include "driftwarden/verdict/doubtful.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "driftwarden/correction/altitude.hpp"
#include "driftwarden/quantity/rounding.hpp"
#include "driftwarden/statistics/duplicated_blocks.hpp"
#include "verdict/replicates.hpp"

namespace driftwarden {
namespace {

constexpr double rarest_identical = 0.001;  // chance makes such a set less than once in a thousand
constexpr double most_chance_blocks = 0.01;
// Weather keeps a station's pressure well within 5 % of the standard atmosphere's (common knowledge, from memory).
constexpr double most_that_weather_does = 0.05;
constexpr double lowest_at_sea_level_kpa = 97;
constexpr double highest_at_sea_level_kpa = 105;

Place place_of(const Book& book, Row reading) {
  const RowPlace at = book.readings.place[reading];
  return {book.files.readings[at.file], at.line, 0};
}

std::string name_of(const Book& book, Row sample) { return std::string(book.samples.name[sample]); }

using ScatterMap = std::map<Row, Scatter>;

void note_identical(const Book& book, const std::vector<Replicates>& all, const ScatterMap& scatter,
                    Diagnostics& doubts) {
  for (const Replicates& set : all) {
    if (set.rows.size() < 3 || !set.are_all_equal()) continue;
    const Scatter& of_calibrator = scatter.at(set.calibrator);
    const std::optional<double> chance = chance_of_equal(set, of_calibrator);
    // In a large book even rare sets turn up: then only what is rarer than one in all its sets is told.
    const double limit = std::min(rarest_identical, 1 / static_cast<double>(of_calibrator.sets));
    if (!chance || *chance >= limit) continue;
    doubts.push_back(remark(
        "doubt/identical", place_of(book, set.rows.front()),
        "all " + std::to_string(set.rows.size()) + " readings of a set of " + name_of(book, set.sample) +
            " are the same; as " + book.instruments[set.calibrator].name + " scatters, chance makes one set in " +
            with_decimals(1 / *chance, 0) + " so (" + std::to_string(of_calibrator.sets) + " sets in this book)",
        "ask whether each was read, or one was written down again"));
  }
}

// The readings of one sample in order, whatever set they are of.
struct Sequence {
  Row sample = no_row;
  std::vector<Row> rows;
  std::vector<double> values;
  // How likely two readings of one set are the same, by the coarsest of its calibrators. Readings of other days are
  // less alike, so it is cautious.
  double equal_pairs = 0;
};

std::vector<Sequence> sequences_of(const std::vector<Replicates>& all, const ScatterMap& scatter) {
  std::vector<Sequence> sequences;
  for (const Replicates& set : all) {
    if (sequences.empty() || sequences.back().sample != set.sample) sequences.push_back({set.sample, {}, {}, 0});
    Sequence& sequence = sequences.back();
    sequence.rows.insert(sequence.rows.end(), set.rows.begin(), set.rows.end());
    sequence.values.insert(sequence.values.end(), set.indicated_l_min.begin(), set.indicated_l_min.end());
    sequence.equal_pairs = std::max(sequence.equal_pairs, scatter.at(set.calibrator).equal_pairs);
  }
  return sequences;
}

// Looks for blocks that two samples share, among those whose displays are fine enough.
class CopiedBlocks {
 public:
  CopiedBlocks(const Book& book, std::vector<Sequence> sequences, Diagnostics& doubts)
      : book_(book), sequences_(std::move(sequences)), doubts_(doubts) {}

  void note() {
    std::set<double> chances;
    for (const Sequence& sequence : sequences_) chances.insert(sequence.equal_pairs);
    for (const double chance : chances) {
      if (chance < 1) note_among(chance);
    }
  }

 private:
  // The shortest block that chance hardly repeats among the sequences that are as fine as that; 0 if none is long
  // enough.
  std::size_t telling_length(double chance) const {
    for (std::size_t length = 3;; ++length) {
      std::size_t blocks = 0;
      for (const Sequence& sequence : sequences_) {
        const std::size_t n = sequence.values.size();
        if (sequence.equal_pairs <= chance && n >= length) blocks += n - length + 1;
      }
      if (blocks < 2) return 0;
      if (expected_chance_blocks(alignments_among(blocks), chance, length) < most_chance_blocks) return length;
    }
  }

  void note_among(double chance) {
    const std::size_t length = telling_length(chance);
    if (length == 0) return;
    std::map<std::vector<double>, std::pair<std::size_t, std::size_t>> seen;  // block -> sequence and offset
    for (std::size_t s = 0; s < sequences_.size(); ++s) {
      const std::vector<double>& values = sequences_[s].values;
      if (sequences_[s].equal_pairs > chance) continue;
      for (std::size_t i = 0; i + length <= values.size(); ++i) {
        const auto begin = values.begin() + static_cast<std::ptrdiff_t>(i);
        const auto [before, is_new] =
            seen.emplace(std::vector(begin, begin + static_cast<std::ptrdiff_t>(length)), std::pair(s, i));
        const auto [first, offset] = before->second;
        if (!is_new && first != s && told_.insert({first, s}).second) tell(s, i, first, offset);
      }
    }
  }

  void tell(std::size_t copy, std::size_t at, std::size_t original, std::size_t offset) {
    const Sequence& of = sequences_[original];
    const std::vector<double>& values = sequences_[copy].values;
    std::size_t length = 0;
    while (at + length < values.size() && offset + length < of.values.size() &&
           values[at + length] == of.values[offset + length])
      ++length;
    doubts_.push_back(remark("doubt/copied", place_of(book_, sequences_[copy].rows[at]),
                             "from here on, " + std::to_string(length) + " readings of " +
                                 name_of(book_, sequences_[copy].sample) + " are those of " +
                                 name_of(book_, of.sample) + " from " + to_text(place_of(book_, of.rows[offset])) +
                                 " on, in order",
                             "ask whether one of them was copied"));
  }

  const Book& book_;
  std::vector<Sequence> sequences_;
  Diagnostics& doubts_;
  std::set<std::pair<std::size_t, std::size_t>> told_;
};

void note_two_places(const Book& book, const std::vector<Replicates>& all, Diagnostics& doubts) {
  std::vector<const Replicates*> sets;
  for (const Replicates& set : all) sets.push_back(&set);
  std::stable_sort(sets.begin(), sets.end(), [](const Replicates* a, const Replicates* b) {
    return std::pair(a->calibrator, a->first) < std::pair(b->calibrator, b->first);
  });
  const Replicates* busy = nullptr;  // the set of this calibrator that lasts longest so far
  for (const Replicates* set : sets) {
    if (busy == nullptr || busy->calibrator != set->calibrator) {
      busy = set;
      continue;
    }
    const bool is_elsewhere =
        field(book.samples.pump, set->sample, no_row) != field(book.samples.pump, busy->sample, no_row);
    if (is_elsewhere && set->first < busy->last && set->last > busy->first) {
      doubts.push_back(remark("doubt/two-places", place_of(book, set->rows.front()),
                              book.instruments[set->calibrator].name + " is read for " + name_of(book, set->sample) +
                                  " before it is done with " + name_of(book, busy->sample) + " (" +
                                  to_text(place_of(book, busy->rows.front())) + ")",
                              "one of the times, or the calibrator, is another"));
    }
    if (set->last > busy->last) busy = set;
  }
}

void note_sea_level(const Book& book, Diagnostics& doubts) {
  if (!book.settings.altitude_m || book.readings.pressure_kpa.empty()) return;
  const double here = pressure_at_altitude(*book.settings.altitude_m).value;
  const double least = std::max(here * (1 + most_that_weather_does), lowest_at_sea_level_kpa);
  std::size_t count = 0;
  Row first = no_row;
  for (Row row = 0; row < book.readings.size(); ++row) {
    const double pressure = book.readings.pressure_kpa[row];
    if (!(pressure > least && pressure < highest_at_sea_level_kpa)) continue;
    if (count++ == 0) first = row;
  }
  if (count == 0) return;
  doubts.push_back(
      remark("doubt/sea-level", place_of(book, first),
             std::to_string(count) + " reading(s), here the first, state pressures of sea level, " +
                 with_decimals(book.readings.pressure_kpa[first], 2) + " kPa; the site's altitude has about " +
                 with_decimals(here, 1) + " kPa",
             "the pressure at the place is needed, not one reduced to sea level as weather reports give it"));
}

}  // namespace

Diagnostics doubts_of(const Book& book) {
  Diagnostics doubts;
  if (book.readings.size() > most_readings_looked_through) return doubts;
  const std::vector<Replicates> all = replicates_of(book);
  const ScatterMap scatter = scatter_by_calibrator(book, all);
  note_identical(book, all, scatter, doubts);
  CopiedBlocks(book, sequences_of(all, scatter), doubts).note();
  note_two_places(book, all, doubts);
  note_sea_level(book, doubts);
  return doubts;
}

}  // namespace driftwarden
