// SPDX-License-Identifier: MIT
#pragma once

#include "doubt/replicates.hpp"

namespace driftwarden {

// Readings of one sample that are those of another, in order: rows of the book, as many of either.
struct Alike {
  std::vector<Row> copy;
  std::vector<Row> original;
};

// What may be a copy: of each pair of samples the longest stretch of readings that are alike, if it is longer than the
// share of equal pairs within the sets of its calibrators lets expect in a book of a hundred. In order of the fineness
// of displays, then of the copies.
std::vector<Alike> readings_alike(const std::vector<Replicates>& all, const ScatterMap& scatter);

// Readings of one sample that repeat those of another in order, where chance makes such a copy in a book more seldom
// than `false_doubts_a_book`, by how the readings of their calibrators on their pumps scatter: doubt/copied.
void note_copies(const Book& book, const std::vector<Replicates>& all, const ScatterMap& scatter, Diagnostics& doubts);

}  // namespace driftwarden
