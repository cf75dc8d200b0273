// SPDX-License-Identifier: MIT
#include "verdict/copied_blocks.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <compare>
#include <cstdint>
#include <set>
#include <span>

#include "statistics/duplicated_blocks.hpp"

namespace driftwarden {
namespace {

constexpr double most_chance_blocks = 0.01;

// The readings of one sample in order, whatever set they are of.
struct Sequence {
  Row sample = no_row;
  std::vector<Row> rows;
  std::vector<double> values;
  // How likely two readings of one set are the same, by the coarsest of its calibrators. Readings of other days are
  // less alike, so it is cautious.
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

std::uint64_t key_of(std::span<const double> values) {
  constexpr std::uint64_t odd = 0x9e3779b97f4a7c15U;
  std::uint64_t key = 0;
  for (const double value : values) {
    key = (std::rotl(key, 23) ^ std::bit_cast<std::uint64_t>(value)) * odd;
    key ^= key >> 31;
  }
  return key;
}

std::vector<Sequence> sequences_of(std::span<const Replicates> all, const ScatterMap& scatter) {
  std::vector<Sequence> sequences;
  for (const Replicates& set : all) {
    if (sequences.empty() || sequences.back().sample != set.sample) sequences.push_back({set.sample, {}, {}, 0});
    Sequence& sequence = sequences.back();
    sequence.rows.insert(sequence.rows.end(), set.rows.begin(), set.rows.end());
    sequence.values.insert(sequence.values.end(), set.indicated_l_min.begin(), set.indicated_l_min.end());
    sequence.equal_pairs = std::max(sequence.equal_pairs, next_halving(scatter.at(set.calibrator).equal_pairs));
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
    for (const double chance : chances) note_among(chance);
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
    const std::vector<Block> blocks = blocks_of(length, chance);
    struct Copy {
      Block block;
      Block original;
    };
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
    for (const auto& [block, first] : copies) {
      const bool is_new = told_.insert({first.sequence, block.sequence}).second;
      if (is_new) tell(block.sequence, block.at, first.sequence, first.at);
    }
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

  void tell(std::size_t copy, std::size_t at, std::size_t original, std::size_t offset) {
    const Sequence& of = sequences_[original];
    const auto here = std::span(sequences_[copy].values).subspan(at);
    const auto ends = std::ranges::mismatch(here, std::span(of.values).subspan(offset));
    const auto length = ends.in1 - here.begin();
    doubts_.push_back(remark("doubt/copied", place_of(book_, sequences_[copy].rows[at]),
                             "from here on, " + std::to_string(length) + " readings of " +
                                 std::string(book_.samples.name[sequences_[copy].sample]) + " are those of " +
                                 std::string(book_.samples.name[of.sample]) + " from " +
                                 to_text(place_of(book_, of.rows[offset])) + " on, in order",
                             "ask whether one of them was copied"));
  }

  const Book& book_;
  std::vector<Sequence> sequences_;
  Diagnostics& doubts_;
  std::set<std::pair<std::size_t, std::size_t>> told_;
};

}  // namespace

void note_copies(const Book& book, std::span<const Replicates> all, const ScatterMap& scatter, Diagnostics& doubts) {
  CopiedBlocks(book, sequences_of(all, scatter), doubts).note();
}

}  // namespace driftwarden
