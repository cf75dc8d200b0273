// SPDX-License-Identifier: MIT
#include "doubt/copied_blocks.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <compare>
#include <cstdint>
#include <functional>
#include <map>
#include <set>
#include <span>

#include "doubt/pair_scatter.hpp"
#include "statistics/duplicated_blocks.hpp"
#include "statistics/estimated_spread.hpp"

namespace driftwarden {
namespace {

// The readings of one sample in order, whatever set they are of.
struct Sequence {
  Row sample = no_row;
  std::vector<Row> rows;
  std::vector<double> values;
  // Which blocks are looked for: how likely two readings of one set are the same, by the coarsest of its calibrators.
  // Readings of other days are less alike.
  double equal_pairs = 0;
};

// The next higher of 1, 1/2, 1/4, ...: few levels of fineness, on the cautious side.
double next_halving(double chance) {
  int exponent = 0;
  const double half_to_one = std::frexp(chance, &exponent);
  return std::ldexp(1.0, half_to_one == 0.5 ? exponent - 1 : exponent);
}

// A block of readings: the sequence it is of, where in it, and a number that equal blocks share.
struct Block {
  std::uint64_t key = 0;
  std::size_t sequence = 0;
  std::size_t at = 0;

  friend auto operator<=>(const Block&, const Block&) = default;
};

// The first of a block, and what repeats it.
struct Copy {
  Block block;
  Block original;
};

std::uint64_t key_of(std::span<const double> values) {
  constexpr std::uint64_t odd = 0x9e3779b97f4a7c15U;
  std::uint64_t key = 0;
  for (const double value : values) {
    key = (std::rotl(key, 23) ^ std::bit_cast<std::uint64_t>(value)) * odd;
    key ^= key >> 31;
  }
  return key;
}

std::vector<Sequence> sequences_of(const std::vector<Replicates>& all, const ScatterMap& scatter) {
  std::vector<Sequence> sequences;
  for (const Replicates& set : those_of_samples(all)) {
    if (sequences.empty() || sequences.back().sample != set.sample) sequences.push_back({set.sample, {}, {}, 0});
    Sequence& sequence = sequences.back();
    sequence.rows.insert(sequence.rows.end(), set.rows.begin(), set.rows.end());
    sequence.values.insert(sequence.values.end(), set.indicated_l_min.begin(), set.indicated_l_min.end());
    sequence.equal_pairs = std::max(sequence.equal_pairs, next_halving(scatter.at(set.calibrator).equal_pairs));
  }
  return sequences;
}

// Looks for blocks that two samples share, among those whose displays are fine enough.
class AlikeFinder {
 public:
  explicit AlikeFinder(std::vector<Sequence> sequences) : sequences_(std::move(sequences)) {}

  std::vector<Alike> find() {
    std::set<double> chances;
    for (const Sequence& sequence : sequences_) chances.insert(sequence.equal_pairs);
    for (const double chance : chances) find_among(chance);
    return std::move(found_);
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
      if (expected_chance_blocks(alignments_among(blocks), chance, length) < false_doubts_a_book) return length;
    }
  }

  void find_among(double chance) {
    const std::size_t length = telling_length(chance);
    if (length == 0) return;
    const std::vector<Block> blocks = blocks_of(length, chance);
    std::vector<Copy> copies;
    const Block* original = nullptr;
    for (const Block& block : blocks) {
      if (original == nullptr || original->key != block.key) {
        original = &block;
      } else if (are_equal(*original, block, length) && original->sequence != block.sequence) {
        copies.push_back({block, *original});
      }
    }
    std::sort(copies.begin(), copies.end(), [](const Copy& a, const Copy& b) {
      return std::pair(a.block.sequence, a.block.at) < std::pair(b.block.sequence, b.block.at);
    });
    using Pair = std::pair<std::size_t, std::size_t>;
    std::vector<Pair> pairs;
    std::map<Pair, Copy> longest;
    for (const Copy& copy : copies) {
      const Pair pair{copy.original.sequence, copy.block.sequence};
      const auto [known, is_new] = longest.try_emplace(pair, copy);
      if (is_new) pairs.push_back(pair);
      if (length_of(copy) > length_of(known->second)) known->second = copy;
    }
    for (const Pair& pair : pairs) {
      if (told_.insert(pair).second) add(longest.at(pair));
    }
  }

  // Of all readings in order that are alike, from the block on.
  std::size_t length_of(const Copy& copy) const {
    const auto here = std::span(sequences_[copy.block.sequence].values).subspan(copy.block.at);
    const auto there = std::span(sequences_[copy.original.sequence].values).subspan(copy.original.at);
    return static_cast<std::size_t>(std::ranges::mismatch(here, there).in1 - here.begin());
  }

  void add(const Copy& copy) {
    const std::size_t length = length_of(copy);
    const auto rows = [&](const Block& block) {
      const auto own = std::span(sequences_[block.sequence].rows).subspan(block.at, length);
      return std::vector<Row>(own.begin(), own.end());
    };
    found_.push_back({rows(copy.block), rows(copy.original)});
  }

  // Those of a length of the sequences that are as fine as that; equal ones side by side, in their order.
  std::vector<Block> blocks_of(std::size_t length, double chance) const {
    std::vector<Block> blocks;
    for (std::size_t s = 0; s < sequences_.size(); ++s) {
      const std::span<const double> values = sequences_[s].values;
      if (sequences_[s].equal_pairs > chance) continue;
      for (std::size_t i = 0; i + length <= values.size(); ++i) {
        blocks.push_back({key_of(values.subspan(i, length)), s, i});
      }
    }
    std::sort(blocks.begin(), blocks.end());
    return blocks;
  }

  bool are_equal(const Block& a, const Block& b, std::size_t length) const {
    const auto values = [&](const Block& block) {
      return std::span(sequences_[block.sequence].values).subspan(block.at, length);
    };
    return std::ranges::equal(values(a), values(b));
  }

  std::vector<Sequence> sequences_;
  std::vector<Alike> found_;
  std::set<std::pair<std::size_t, std::size_t>> told_;
};

// As if σ were s, and by how well s is known.
using MeanOverSpread = double (*)(double dof, const std::function<double(double sigma_over_s)>& f);
constexpr MeanOverSpread estimated = mean_over_estimated_spread;
constexpr MeanOverSpread no_doubt = [](double, const std::function<double(double)>& f) { return f(1); };

// Readings of a set that stand in a copy.
struct Run {
  std::size_t set = 0;
  std::size_t readings = 0;
};

// How often chance makes such copies in a book.
class ChanceOfCopies {
 public:
  ChanceOfCopies(const std::vector<Replicates>& all, const ScatterMap& scatter)
      : all_(all), scatter_(scatter), known_(all) {
    std::size_t readings = 0;
    for (std::size_t set = 0; set < all.size(); ++set) {
      if (all[set].sample != no_row) readings += all[set].rows.size();
      for (const Row row : all[set].rows) set_of_[row] = set;
    }
    alignments_ = alignments_among(readings);
  }

  // Two stretches of readings are alike that often where their sets' levels are: levels of two days differ, so it is
  // more than chance makes. By the steadier of the two pumps.
  double times_a_book(const Alike& alike) const {
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> runs;  // of a set and a set, how many readings
    for (std::size_t i = 0; i < alike.copy.size(); ++i)
      ++runs[{set_of_.at(alike.copy[i]), set_of_.at(alike.original[i])}];
    std::vector<Run> of_copy;
    std::vector<Run> of_original;
    for (const auto& [sets, readings] : runs) {
      of_copy.push_back({sets.first, readings});
      of_original.push_back({sets.second, readings});
    }
    // That σ is estimated makes copies more frequent, never rarer, and takes long to work out.
    const double at_least = alignments_ * std::max(chance_of(of_copy, no_doubt), chance_of(of_original, no_doubt));
    if (!(at_least < false_doubts_a_book)) return at_least;
    return alignments_ * std::max(chance_of(of_copy, estimated), chance_of(of_original, estimated));
  }

 private:
  // Sets of one calibrator are of one pair, for a sample has one pump; their σ is one and the same.
  double chance_of(const std::vector<Run>& runs, MeanOverSpread mean_over) const {
    std::map<Row, std::vector<Run>> by_calibrator;
    for (const Run& run : runs) by_calibrator[all_[run.set].calibrator].push_back(run);
    double chance = 1;
    for (const auto& [calibrator, own] : by_calibrator) {
      const PooledSpread known = known_.in_steps(own.front().set, scatter_.at(calibrator).step);
      if (!(known.dof > 0)) continue;
      chance *= mean_over(known.dof, [&, &own = own](double sigma_over_s) {
        double alike = 1;
        for (const Run& run : own) alike *= probability_of_matching_readings(run.readings, sigma_over_s * known.s);
        return alike;
      });
    }
    return chance;
  }

  const std::vector<Replicates>& all_;
  const ScatterMap& scatter_;
  PairScatter known_;
  std::map<Row, std::size_t> set_of_;
  double alignments_ = 0;
};

Diagnostic told_of(const Book& book, const Alike& alike, double times_a_book) {
  const auto sample = [&book](Row reading) {
    return std::string(book.samples.name[field(book.readings.sample, reading, no_row)]);
  };
  return remark("doubt/copied", place_of(book, alike.copy.front()),
                "from here on, " + std::to_string(alike.copy.size()) + " readings of " + sample(alike.copy.front()) +
                    " are those of " + sample(alike.original.front()) + " from " +
                    to_text(place_of(book, alike.original.front())) +
                    " on, in order; as readings of their pumps scatter, chance makes such a copy " +
                    how_often_in_books(times_a_book),
                "ask whether one of them was copied");
}

}  // namespace

std::vector<Alike> readings_alike(const std::vector<Replicates>& all, const ScatterMap& scatter) {
  return AlikeFinder(sequences_of(all, scatter)).find();
}

void note_copies(const Book& book, const std::vector<Replicates>& all, const ScatterMap& scatter, Diagnostics& doubts) {
  const std::vector<Alike> found = readings_alike(all, scatter);
  if (found.empty()) return;
  const ChanceOfCopies chance(all, scatter);
  for (const Alike& alike : found) {
    const double times_a_book = chance.times_a_book(alike);
    if (times_a_book < false_doubts_a_book) doubts.push_back(told_of(book, alike, times_a_book));
  }
}

}  // namespace driftwarden
