// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>

namespace driftwarden {

// Probability that two readings taken at random show the same figure: Σp², from how often each figure occurs. NaN if
// there are none. The frequencies are taken as they are, a reading may meet itself: a little too high, so cautious.
double probability_of_equal_readings(std::span<const std::size_t> counts_of_each_figure);

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
//   E = M p^k      probability of any: 1 - e^(-E)
//
//   M, p, k  alignments, probability of two equal readings, readings in the block
//   Source   expectation of a sum; Poisson approximation
//   Valid    readings independent of one another; alignments that overlap are not, so E is a guide
//   Example  400 readings (M 79800), p 0.08, k 8  ->  E 1.34e-4
double expected_chance_blocks(double alignments, double probability_equal, std::size_t block_length);
double probability_of_any_block(double expected);

// The shortest block whose E is below `most_expected`. 0 if p is not inside 0 to 1 and no length would do.
std::size_t telling_block_length(double alignments, double probability_equal, double most_expected = 0.01);

}  // namespace driftwarden
