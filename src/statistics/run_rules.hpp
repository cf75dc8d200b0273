// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string_view>
#include <vector>

namespace driftwarden {

// Patterns of points on a control chart that chance seldom makes. z = (point - centre) / sigma.
enum class RunPattern {
  beyond_limit,    // one point beyond 3
  two_of_three,    // two of three beyond 2, on one side
  four_of_five,    // four of five beyond 1, on one side
  one_side,        // `length` in a row on one side of the centre line
  trend,           // `length` points in a row rising, or falling (6 points are 5 steps)
  alternating,     // `length` points in a row going up and down in turn
  stratification,  // `length` in a row within 1
  mixture,         // `length` in a row beyond 1, some on either side
};

// Words for messages: "two of three beyond 2 sigma".
std::string_view to_text(RunPattern pattern);

// A pattern and, where it has one, how many points it takes. Books differ there: one_side 7, 8 or 9, trend 6 or 7.
struct RunRule {
  RunPattern pattern = RunPattern::beyond_limit;
  std::size_t length = 1;
};

// The four rules of 1956 and the eight of 1984.
// Source: Western Electric, Statistical Quality Control Handbook (1956); Nelson, J. Quality Technology 16 (1984) 237.
inline constexpr std::array<RunRule, 4> western_electric_rules = {{
    {RunPattern::beyond_limit, 1},
    {RunPattern::two_of_three, 3},
    {RunPattern::four_of_five, 5},
    {RunPattern::one_side, 8},
}};
inline constexpr std::array<RunRule, 8> nelson_rules = {{
    {RunPattern::beyond_limit, 1},
    {RunPattern::one_side, 9},
    {RunPattern::trend, 6},
    {RunPattern::alternating, 14},
    {RunPattern::two_of_three, 3},
    {RunPattern::four_of_five, 5},
    {RunPattern::stratification, 15},
    {RunPattern::mixture, 8},
}};

// The points, by index, at which the pattern is complete. What the sources leave open is decided so:
// "beyond" is strict: z of exactly 3 is no signal. A point on the centre line ends a run. Equal neighbours end a trend
// and an alternation. Of "k of m" the signal is the newest point and that point is itself beyond the line; fewer than m
// points at the start can be enough. A mixture needs both sides. A missing point (NaN) ends everything: no pattern
// bridges it.
// Not for charts of moving ranges, whose neighbours share a value: there only beyond_limit has a meaning.
std::vector<std::size_t> signals_of(const RunRule& rule, std::span<const double> z);

struct RunSignal {
  std::size_t index = 0;
  RunRule rule;
};

// All signals of several rules, by point, then in the order of the rules.
std::vector<RunSignal> run_signals(std::span<const RunRule> rules, std::span<const double> z);

// How often a point with enough points before it gives this signal by chance.
//
//   beyond_limit 2Φ(-3)            two_of_three 2p(1 - (1 - p)²), p = Φ(-2)     one_side 2·2^-L      trend 2/L!
//   alternating 2E_L/L!            four_of_five 2p·P(3 or more of 4), p = Φ(-1)
//   stratification (1 - 2p)^L      mixture (2p)^L - 2p^L, p = Φ(-1)
//
//   L        length      E_L  number of alternating orders of L things (Euler's zigzag numbers)
//   Source   counting, with the decisions above
//   Valid    independent, normally distributed points about a known centre and sigma
//   Example  beyond_limit 0.0027, one_side of 8 0.0078, trend of 6 0.0028
double false_signal_probability(const RunRule& rule);

}  // namespace driftwarden
