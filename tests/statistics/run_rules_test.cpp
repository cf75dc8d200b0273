// SPDX-License-Identifier: MIT
#include "statistics/run_rules.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "statistics/data_file.hpp"
#include "statistics/quadrature.hpp"
#include "statistics/random_numbers.hpp"

namespace driftwarden::run_rules_test {
namespace {

using Indices = std::vector<std::size_t>;
using Z = std::vector<double>;

constexpr RunRule beyond{RunPattern::beyond_limit, 1};
constexpr RunRule run_of_7{RunPattern::one_side, 7};
constexpr RunRule run_of_8{RunPattern::one_side, 8};
constexpr RunRule run_of_9{RunPattern::one_side, 9};
constexpr RunRule trend_of_6{RunPattern::trend, 6};
constexpr RunRule trend_of_7{RunPattern::trend, 7};
constexpr RunRule alternating_14{RunPattern::alternating, 14};
constexpr RunRule two_of_three{RunPattern::two_of_three, 3};
constexpr RunRule four_of_five{RunPattern::four_of_five, 5};
constexpr RunRule stratified_15{RunPattern::stratification, 15};
constexpr RunRule mixture_8{RunPattern::mixture, 8};

// A sequence and the points, counted from 1, at which each rule signals; rules not named don't.
struct Case {
  std::string name;
  Z z;
  std::vector<std::pair<RunRule, Indices>> signals;
};

Indices expected_of(const Case& c, const RunRule& rule) {
  for (const auto& [named, points] : c.signals) {
    if (named.pattern == rule.pattern && named.length == rule.length) return points;
  }
  return {};
}

// Written for this project and worked out by hand and by a separate program.
const std::vector<Case> cases{
    {"one beyond three", {0.2, -0.4, 3.01, 0.1}, {{beyond, {3}}}},
    {"exactly three is not beyond", {0.2, -0.4, 3.0, 0.1}, {}},
    {"nine on one side",
     {-0.1, 0.1, 0.2, 0.1, 0.5, 0.3, 0.2, 0.4, 0.1, 0.2},
     {{run_of_8, {9, 10}}, {run_of_9, {10}}, {run_of_7, {8, 9, 10}}}},
    {"a point on the centre line ends a run", {0.1, 0.2, 0.1, 0.5, 0.0, 0.2, 0.4, 0.1, 0.2, 0.3}, {}},
    {"six rising", {0.5, -1.0, -0.6, -0.2, 0.1, 0.4, 0.9}, {{trend_of_6, {7}}}},
    {"equal neighbours end a trend", {-1.0, -0.6, -0.2, -0.2, 0.4, 0.9}, {}},
    {"fourteen in turn",
     {0.1, -0.1, 0.2, -0.2, 0.1, -0.3, 0.2, -0.1, 0.3, -0.2, 0.1, -0.4, 0.2, -0.1},
     {{alternating_14, {14}}}},
    {"two of three beyond two", {0.0, 2.1, -0.3, 2.2, 0.1}, {{two_of_three, {4}}}},
    {"two of three on opposite sides", {0.0, 2.1, -0.3, -2.2, 0.1}, {}},
    {"four of five beyond one", {0.0, 1.1, 1.3, -0.2, 1.2, 1.4, 0.1}, {{four_of_five, {6}}}},
    {"exactly two is not beyond two", {0.0, 2.0, -0.3, 2.2, 0.1, 2.1, 2.0}, {{two_of_three, {6}}}},
    {"exactly one is not beyond one", {1.0, 1.3, 1.0, 1.2, 1.4}, {}},
    {"fifteen within one, with one on the line",
     {0.5, -0.4, 0.3, -0.9, 0.1, 0.8, -0.7, 1.0, -0.1, 0.6, -0.5, 0.4, -0.3, 0.9, -0.2},
     {{stratified_15, {15}}}},
    {"fifteen within one",
     {0.5, -0.4, 0.3, -0.9, 0.1, 0.8, -0.7, 0.2, -0.1, 0.6, -0.5, 0.4, -0.3, 0.9, -0.2},
     {{stratified_15, {15}}}},
    {"eight beyond one on both sides", {1.2, -1.3, 1.5, -1.1, 1.4, 1.6, -1.2, 1.1}, {{mixture_8, {8}}}},
    {"eight beyond one on one side are no mixture",
     {1.2, 1.3, 1.5, 1.1, 1.4, 1.6, 1.2, 1.1},
     {{run_of_8, {8}}, {run_of_7, {7, 8}}, {four_of_five, {4, 5, 6, 7, 8}}}},
};

constexpr std::array<RunRule, 11> all_rules{beyond,       run_of_8,      run_of_9,       run_of_7,
                                            trend_of_6,   trend_of_7,    alternating_14, two_of_three,
                                            four_of_five, stratified_15, mixture_8};

Indices counted_from_one(Indices indices) {
  for (auto& index : indices) ++index;
  return indices;
}

TEST(RunRules, SignalWhereThePatternIsCompleteAndNowhereElse) {
  for (const Case& c : cases) {
    for (const RunRule& rule : all_rules) {
      EXPECT_EQ(counted_from_one(signals_of(rule, c.z)), expected_of(c, rule))
          << c.name << ": " << to_text(rule.pattern) << " of " << rule.length;
    }
  }
}

TEST(RunRules, SignalTheSameBelowTheCentreLine) {
  for (const Case& c : cases) {
    Z mirrored = c.z;
    for (double& value : mirrored) value = -value;
    for (const RunRule& rule : all_rules) EXPECT_EQ(signals_of(rule, mirrored), signals_of(rule, c.z)) << c.name;
  }
}

TEST(RunRules, AMissingPointEndsEveryPattern) {
  for (const Case& c : cases) {
    if (c.z.size() < 4) continue;
    for (const RunRule& rule : all_rules) {
      if (rule.pattern == RunPattern::beyond_limit || expected_of(c, rule).empty()) continue;
      Z broken = c.z;
      broken.insert(broken.begin() + static_cast<std::ptrdiff_t>(expected_of(c, rule).front()) - 1, std::nan(""));
      for (const std::size_t index : signals_of(rule, broken)) EXPECT_GT(index, expected_of(c, rule).front()) << c.name;
    }
  }
  EXPECT_TRUE(signals_of(two_of_three, Z{2.1, std::nan(""), 2.1}).empty());
}

Z standardized(const std::vector<double>& values, double centre, double sigma) {
  Z z;
  for (const double value : values) z.push_back((value - centre) / sigma);
  return z;
}

TEST(RunRules, OfTheHandbooksEwmaValues) {
  // printed input: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.4; signals counted with Python 3.11 by
  // tests/support/computed_statistics.py.
  const Z z = standardized(test::column_of("nist_6_3_2_4_ewma.csv"), 50, 2.0539);
  for (const RunRule& rule : all_rules) {
    EXPECT_EQ(counted_from_one(signals_of(rule, z)),
              rule.pattern == RunPattern::four_of_five ? Indices{20} : Indices{});
  }
}

TEST(RunRules, OfTheHandbooksCusumMeans) {
  // printed input: NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3, sigma of a mean 1.27/√4; signals counted
  // with Python 3.11 by tests/support/computed_statistics.py.
  const Z z = standardized(test::column_of("nist_6_3_2_3_cusum.csv"), 325, 0.635);
  EXPECT_EQ(counted_from_one(signals_of(beyond, z)), (Indices{13, 14, 15, 16, 18, 20}));
  EXPECT_EQ(counted_from_one(signals_of(run_of_8, z)), (Indices{19, 20}));
  EXPECT_EQ(counted_from_one(signals_of(run_of_9, z)), (Indices{20}));
  EXPECT_EQ(counted_from_one(signals_of(two_of_three, z)), (Indices{14, 15, 16, 17, 18, 19, 20}));
  EXPECT_EQ(counted_from_one(signals_of(four_of_five, z)), (Indices{16, 17, 18, 19, 20}));
}

TEST(RunRules, SeveralAreListedByPointThenInTheirOrder) {
  const Z z{1.2, 1.3, 1.5, 3.1};
  const auto signals = run_signals(western_electric_rules, z);
  ASSERT_EQ(signals.size(), 2U);
  EXPECT_EQ(signals[0].index, 3U);
  EXPECT_EQ(signals[0].rule.pattern, RunPattern::beyond_limit);
  EXPECT_EQ(signals[1].index, 3U);
  EXPECT_EQ(signals[1].rule.pattern, RunPattern::four_of_five);
}

TEST(RunRules, HaveWordsOfTheirOwn) {
  EXPECT_EQ(to_text(RunPattern::two_of_three), "two of three beyond 2 sigma");
  std::set<std::string_view> words;
  for (const RunRule& rule : nelson_rules) words.insert(to_text(rule.pattern));
  EXPECT_EQ(words.size(), 8U);
  EXPECT_FALSE(words.contains(""));
}

TEST(RunRules, OfNothingOrOfImpossibleLengthsDoNoHarm) {
  for (const RunRule& rule : all_rules) EXPECT_TRUE(signals_of(rule, {}).empty());
  for (const RunRule& rule : all_rules) EXPECT_TRUE(signals_of(rule, Z{std::nan("")}).empty());
  EXPECT_EQ(signals_of({RunPattern::trend, 0}, Z{1, 2}), Indices{1});
  EXPECT_EQ(signals_of({RunPattern::alternating, 0}, Z{1, 2, 1}), Indices{2});
  EXPECT_EQ(signals_of({RunPattern::one_side, 0}, Z{1, -1}), (Indices{0, 1}));
}

TEST(FalseSignals, AreAsOftenAsCountedElsewhere) {
  // own input: chances of one window, to their digits, computed with SciPy 1.10 by
  // tests/support/computed_statistics.py.
  EXPECT_NEAR(false_signal_probability(beyond), 0.0027, 5e-6);
  EXPECT_NEAR(false_signal_probability(run_of_7), 0.0156, 5e-5);
  EXPECT_NEAR(false_signal_probability(run_of_8), 0.0078, 5e-5);
  EXPECT_NEAR(false_signal_probability(run_of_9), 0.0039, 1e-5);
  EXPECT_NEAR(false_signal_probability(trend_of_6), 0.00278, 5e-6);
  EXPECT_NEAR(false_signal_probability(trend_of_7), 0.00040, 5e-6);
  // derived: twice the Euler number of 14 places over 14!.
  EXPECT_NEAR(false_signal_probability(alternating_14), 2 * 199360981.0 / 87178291200.0, 1e-15);
  // own input: as above; computed with SciPy 1.10 by tests/support/computed_statistics.py.
  EXPECT_NEAR(false_signal_probability(stratified_15), 0.00326, 5e-6);
  EXPECT_NEAR(false_signal_probability(mixture_8), 0.000102, 5e-7);
}

TEST(FalseSignals, AreAsOftenAsInRandomNumbers) {
  test::RandomNumbers random(8);
  Z z(2000000);
  for (double& value : z) value = random.normal();
  for (const RunRule& rule : all_rules) {
    const double expected = false_signal_probability(rule);
    const double found = static_cast<double>(signals_of(rule, z).size()) / static_cast<double>(z.size());
    // Signals come in clusters; five standard errors of independent ones, doubled.
    EXPECT_NEAR(found, expected, 10 * std::sqrt(expected / static_cast<double>(z.size()))) << to_text(rule.pattern);
  }
}

double mean_run_length(std::span<const RunRule> rules, int runs) {
  test::RandomNumbers random(91);
  double total = 0;
  for (int run = 0; run < runs; ++run) {
    Z z(1200);
    for (double& value : z) value = random.normal();
    const auto signals = run_signals(rules, z);
    total += static_cast<double>(signals.empty() ? z.size() : signals.front().index + 1);
  }
  return total / runs;
}

TEST(FalseSignals, ComeAfterAsManyPointsAsInTheLiterature) {
  // Four rules of 1956: 91.75 (Champ and Woodall 1987, from memory), 92.1 ± 0.2 by a separate simulation; eight of
  // 1984: 73.5 ± 0.15. 5000 runs: standard error 1.3 and 1.0.
  EXPECT_NEAR(mean_run_length(western_electric_rules, 5000), 92.0, 4.5);
  EXPECT_NEAR(mean_run_length(nelson_rules, 5000), 73.5, 3.5);
}

// By hand: the newest point has to lie beyond the line itself, and no farther back than the window.
TEST(RunRules, SignalAtAPointThatIsBeyondTheLineItself) {
  EXPECT_EQ(signals_of(two_of_three, Z{2.1, 2.2, 0.1}), Indices{1});
  EXPECT_EQ(signals_of(two_of_three, Z{2.1, 2.2, 2.0}), Indices{1});
  EXPECT_TRUE(signals_of(two_of_three, Z{2.1, 0, 0, 2.2}).empty());
  EXPECT_EQ(signals_of(four_of_five, Z{1.1, 1.2, 1.3, 1.4, 0.2}), Indices{3});
  EXPECT_EQ(signals_of(four_of_five, Z{1.1, 1.2, 1.3, 1.4, 1.0}), Indices{3});
}

TEST(RunRules, EqualNeighboursAreNoTurn) {
  for (const Z& z : {Z{1, 0, 0}, Z{0, 0, 1}, Z{0, 1, 1}, Z{1, 1, 0}}) {
    EXPECT_TRUE(signals_of({RunPattern::alternating, 3}, z).empty()) << z[0] << z[1] << z[2];
  }
}

TEST(RunRules, APointOnOneSigmaEndsAMixtureOfWhichTwoPointsAreTheLeast) {
  EXPECT_TRUE(signals_of(mixture_8, Z{1.2, -1.3, 1.5, -1.0, 1.4, 1.6, -1.2, 1.1}).empty());
  EXPECT_EQ(signals_of({RunPattern::mixture, 0}, Z{1.2, -1.3}), Indices{1});
}

TEST(RunRules, SignalsOfALaterRuleMayComeEarlier) {
  const auto signals = run_signals(western_electric_rules, Z{1.2, 1.3, 1.5, 1.4, 3.1});
  ASSERT_EQ(signals.size(), 3U);
  EXPECT_EQ(signals[0].index, 3U);
  EXPECT_EQ(signals[0].rule.pattern, RunPattern::four_of_five);
  EXPECT_EQ(signals[1].rule.pattern, RunPattern::beyond_limit);
}

// derived: 2p (2p - p²) with p = Φ(-2), and 2q (4q³ (1 - q) + q⁴) with q = Φ(-1); of eight beyond one, 2⁸ - 2 of 2⁸
// ways.
TEST(FalseSignals, OfRulesWithAWindowAreCountedByHand) {
  const double p = test::normal_chance_below(-2);
  const double q = test::normal_chance_below(-1);
  EXPECT_NEAR(false_signal_probability(two_of_three), 2 * p * (2 * p - p * p), 1e-15);
  EXPECT_NEAR(false_signal_probability(four_of_five), 2 * q * (4 * q * q * q * (1 - q) + q * q * q * q), 1e-15);
  EXPECT_NEAR(false_signal_probability(mixture_8), std::pow(q, 8) * 254, 1e-15);
}

}  // namespace
}  // namespace driftwarden::run_rules_test
