// SPDX-License-Identifier: MIT
#pragma once

#include "doubt/pair_scatter.hpp"

namespace driftwarden {

// Tells of sets of three readings or more that are all equal, where chance makes one such among all sets of the book
// more seldom than `false_doubts_a_book`, by how that calibrator's readings on that pump scatter: doubt/identical.
void note_equal_sets(const Book& book, const std::vector<Replicates>& all, const ScatterMap& scatter,
                     Diagnostics& doubts);

// How often chance makes all n readings equal where others of the pair scatter so, in steps. 1 where nothing is known.
double chance_of_equal(std::size_t n, const PooledSpread& in_steps);

}  // namespace driftwarden
