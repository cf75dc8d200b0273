// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

namespace driftwarden {

// Probability that two sets of n readings of one level show the same, reading for reading.
//
//   P = (1/δ) ∫ [ Σ_j p_j(x)² ]ⁿ dx,   p_j(x) = Φ((jδ + δ/2 - x)/σ) - Φ((jδ - δ/2 - x)/σ)
//
//   σ, δ     standard deviation and display step, one unit (passed as σ/δ); the level lies anywhere in a step
//   Source   derived; on a fine display (δ/(2σ√π))ⁿ
//   Valid    independent normal readings, σ/δ > 0, NaN otherwise. Levels of two days differ, so it is cautious.
//   Example  σ/δ 2, n 5  ->  5.30e-5;  σ/δ 0.5, n 5  ->  0.0276
double probability_of_matching_readings(std::size_t n, double sigma_in_steps);

// Pairs of places at which a block could start twice among so many readings: n(n - 1)/2.
double alignments_among(std::size_t readings);

// How many blocks of k equal readings in a row chance alone makes.
//
//   E = M p^k
//
//   M, p, k  alignments, probability of two equal readings, readings in the block
//   Source   expectation of a sum
//   Valid    readings independent of one another; alignments that overlap are not, so E is a guide
//   Example  400 readings (M 79800), p 0.08, k 8  ->  E 1.34e-4
double expected_chance_blocks(double alignments, double probability_equal, std::size_t block_length);

}  // namespace driftwarden
