// SPDX-License-Identifier: MIT
#pragma once

#include <bit>
#include <cstdint>
#include <string_view>

#include "book/short_text.hpp"
#include "record/column.hpp"
#include "record/instrument.hpp"

namespace driftwarden {

// Finds the row of a name, by open addressing over row numbers. Beside each stands a print of its name, so that hardly
// any name is looked at but the one that is found. `NameOf` gives the name of a row.
template <class NameOf>
class NameIndex {
 public:
  NameIndex(std::size_t rows, NameOf name_of) : name_of_(name_of), mask_(std::bit_ceil(2 * rows + 2) - 1) {
    slots_.reserve(mask_ + 1);
  }

  // The row that already has this name, or no_row when `row` was entered under it.
  Row enter(Row row) {
    const std::string_view name = name_of_(row);
    const std::uint64_t h = hash(name);
    std::size_t at = h & mask_;
    for (; slots_[at].row() != no_row; at = next(at)) {
      if (slots_[at].print == print_of(h) && name_of_(slots_[at].row()) == name) return slots_[at].row();
    }
    slots_[at] = {row + 1, print_of(h)};
    return no_row;
  }
  // Has the memory fetched that entering a row soon will need. Always inline, like all that only fetches: g++ leaves a
  // call out that gives nothing back and writes nowhere.
  [[gnu::always_inline]] void expect(Row row) const { __builtin_prefetch(&slots_[hash(name_of_(row)) & mask_]); }
  // The same for finding a name, in three steps that wait for each other: where its row is noted, where that row's name
  // is, and that name.
  struct Sought {
    std::size_t at = SIZE_MAX;  // a slot; SIZE_MAX: nothing is sought
    std::uint32_t print = 0;
    Row row = no_row;
  };
  Sought seek(std::string_view name) const {
    const std::uint64_t h = hash(name);
    __builtin_prefetch(&slots_[h & mask_]);
    return {static_cast<std::size_t>(h & mask_), print_of(h), no_row};
  }
  void seek_row(Sought& sought) const {
    if (sought.at == SIZE_MAX) return;
    std::size_t at = sought.at;
    while (slots_[at].row() != no_row && slots_[at].print != sought.print) at = next(at);
    sought.row = slots_[at].row();
    if (sought.row != no_row) name_of_.expect(sought.row);
  }
  [[gnu::always_inline]] void seek_name(const Sought& sought) const {
    if (sought.row != no_row) __builtin_prefetch(name_of_(sought.row).data());
  }
  Row find(std::string_view name) const {
    const std::uint64_t h = hash(name);
    for (std::size_t at = h & mask_; slots_[at].row() != no_row; at = next(at)) {
      if (slots_[at].print == print_of(h) && is_same_text(name_of_(slots_[at].row()), name)) return slots_[at].row();
    }
    return no_row;
  }

 private:
  struct Slot {
    std::uint32_t behind;  // the row and 1; 0: nothing is noted here
    std::uint32_t print;
    Row row() const { return behind - 1; }
  };
  static_assert(no_row + 1 == 0U);
  std::size_t next(std::size_t at) const { return (at + 1) & mask_; }
  // The bits that least choose the slot.
  static std::uint32_t print_of(std::uint64_t h) { return static_cast<std::uint32_t>(h >> 32); }
  // Eight bytes at a time, each mixed by a multiplication with a large odd number.
  static std::uint64_t hash(std::string_view text) {
    constexpr std::uint64_t odd = 0x9e3779b97f4a7c15U;
    std::uint64_t h = text.size() * odd;
    for (std::size_t at = 0; at + 8 < text.size(); at += 8) {
      h = std::rotl((h ^ last_bytes(text.substr(at, 8))) * odd, 29);
    }
    // Twice, for a product's low bits, which choose the slot, know nothing of its factors' high bits: of the last
    // letters.
    h = (h ^ last_bytes(text)) * odd;
    h = (h ^ (h >> 32)) * odd;
    return h ^ (h >> 29);
  }

  NameOf name_of_;
  Column<Slot> slots_;
  std::size_t mask_;
};

}  // namespace driftwarden
