// SPDX-License-Identifier: MIT
#include "statistics/run_rules.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "quantity/elementary.hpp"
#include "statistics/binomial.hpp"
#include "statistics/normal_distribution.hpp"
#include "statistics/special_functions.hpp"

namespace driftwarden {

namespace {

using Points = std::span<const double>;
using Signals = std::vector<std::size_t>;

// Every point that ends `length` or more in a row for which `holds`, a statement on an index.
template <class Statement>
Signals ends_of_runs(std::size_t size, std::size_t length, Statement holds) {
  Signals ends;
  std::size_t run = 0;
  for (std::size_t i = 0; i < size; ++i) {
    run = holds(i) ? run + 1 : 0;
    if (run >= length) ends.push_back(i);
  }
  return ends;
}

Signals united(const Signals& a, const Signals& b) {
  Signals all;
  std::ranges::set_union(a, b, std::back_inserter(all));
  return all;
}

Signals both_sides(Points z, Signals (*of_upper_side)(Points, std::size_t), std::size_t length) {
  std::vector<double> mirrored(z.begin(), z.end());
  for (double& value : mirrored) value = -value;
  return united(of_upper_side(z, length), of_upper_side(mirrored, length));
}

Signals beyond_limit(Points z) {
  return ends_of_runs(z.size(), 1, [&](std::size_t i) { return std::fabs(z[i]) > 3; });
}

// Points beyond the line among the newest `window` up to i, not past a missing one.
std::size_t count_beyond(Points z, std::size_t i, std::size_t window, double line) {
  std::size_t beyond = 0;
  for (std::size_t back = 0; back < window && back <= i && !std::isnan(z[i - back]); ++back) {
    if (z[i - back] > line) ++beyond;
  }
  return beyond;
}

Signals two_of_three_above(Points z, std::size_t) {
  return ends_of_runs(z.size(), 1, [&](std::size_t i) { return z[i] > 2 && count_beyond(z, i, 3, 2) >= 2; });
}

Signals four_of_five_above(Points z, std::size_t) {
  return ends_of_runs(z.size(), 1, [&](std::size_t i) { return z[i] > 1 && count_beyond(z, i, 5, 1) >= 4; });
}

Signals run_above(Points z, std::size_t length) {
  return ends_of_runs(z.size(), length, [&](std::size_t i) { return z[i] > 0; });
}

// A step belongs to its later point, so a trend of `length` points is a run one shorter.
Signals rise(Points z, std::size_t length) {
  return ends_of_runs(z.size(), length - 1, [&](std::size_t i) { return i > 0 && z[i] > z[i - 1]; });
}

bool turns(Points z, std::size_t i) {
  return (z[i] > z[i - 1] && z[i - 1] < z[i - 2]) || (z[i] < z[i - 1] && z[i - 1] > z[i - 2]);
}

// A turn takes three points, so alternation of `length` points is a run of two fewer.
Signals alternating(Points z, std::size_t length) {
  return ends_of_runs(z.size(), length - 2, [&](std::size_t i) { return i > 1 && turns(z, i); });
}

Signals stratification(Points z, std::size_t length) {
  return ends_of_runs(z.size(), length, [&](std::size_t i) { return std::fabs(z[i]) <= 1; });
}

Signals mixture(Points z, std::size_t length) {
  Signals ends = ends_of_runs(z.size(), length, [&](std::size_t i) { return std::fabs(z[i]) > 1; });
  std::erase_if(ends, [&](std::size_t end) {
    const Points window = z.subspan(end + 1 - length, length);
    const auto [lowest, highest] = std::ranges::minmax(window);
    return lowest > 0 || highest < 0;
  });
  return ends;
}

// The fewest points that can make the pattern at all; anything shorter is taken as this.
std::size_t shortest(RunPattern pattern) {
  if (pattern == RunPattern::alternating) return 3;
  return pattern == RunPattern::trend || pattern == RunPattern::mixture ? 2 : 1;
}

// Number of orders of n things that go up and down in turn, as a share of all, both ways of starting: 2 E_n / n!.
// e[n] = E_n/n! from 2(n + 1) e[n + 1] = Σ e[k] e[n - k].
double alternating_share(std::size_t n) {
  std::vector<double> e{1, 1};
  while (e.size() <= n) {
    const std::size_t last = e.size() - 1;
    double sum = 0;
    for (std::size_t k = 0; k <= last; ++k) sum += e[k] * e[last - k];
    e.push_back(sum / (2 * static_cast<double>(last + 1)));
  }
  return 2 * e[n];
}

}  // namespace

std::string_view to_text(RunPattern pattern) {
  switch (pattern) {
    case RunPattern::beyond_limit:
      return "beyond 3 sigma";
    case RunPattern::two_of_three:
      return "two of three beyond 2 sigma";
    case RunPattern::four_of_five:
      return "four of five beyond 1 sigma";
    case RunPattern::one_side:
      return "run on one side of the centre line";
    case RunPattern::trend:
      return "run up or down";
    case RunPattern::alternating:
      return "up and down in turn";
    case RunPattern::stratification:
      return "run within 1 sigma";
    case RunPattern::mixture:
      return "run beyond 1 sigma on both sides";
  }
  return "";
}

std::vector<std::size_t> signals_of(const RunRule& rule, std::span<const double> z) {
  const std::size_t length = std::max(rule.length, shortest(rule.pattern));
  switch (rule.pattern) {
    case RunPattern::beyond_limit:
      return beyond_limit(z);
    case RunPattern::two_of_three:
      return both_sides(z, two_of_three_above, length);
    case RunPattern::four_of_five:
      return both_sides(z, four_of_five_above, length);
    case RunPattern::one_side:
      return both_sides(z, run_above, length);
    case RunPattern::trend:
      return both_sides(z, rise, length);
    case RunPattern::alternating:
      return alternating(z, length);
    case RunPattern::stratification:
      return stratification(z, length);
    case RunPattern::mixture:
      return mixture(z, length);
  }
  return {};
}

std::vector<RunSignal> run_signals(std::span<const RunRule> rules, std::span<const double> z) {
  std::vector<RunSignal> all;
  for (const RunRule& rule : rules) {
    for (const std::size_t index : signals_of(rule, z)) all.push_back({index, rule});
  }
  std::ranges::stable_sort(all, {}, &RunSignal::index);
  return all;
}

double false_signal_probability(const RunRule& rule) {
  const std::size_t length = std::max(rule.length, shortest(rule.pattern));
  const auto l = static_cast<double>(length);
  const double beyond_two = normal_cdf(-2);
  const double beyond_one = normal_cdf(-1);
  switch (rule.pattern) {
    case RunPattern::beyond_limit:
      return 2 * normal_cdf(-3);
    case RunPattern::two_of_three:
      return 2 * beyond_two * binomial_at_least(1, 2, beyond_two);
    case RunPattern::four_of_five:
      return 2 * beyond_one * binomial_at_least(3, 4, beyond_one);
    case RunPattern::one_side:
      return 2 * elementary::pow(0.5, l);
    case RunPattern::trend:
      return 2 / special::gamma(l + 1);
    case RunPattern::alternating:
      return alternating_share(length);
    case RunPattern::stratification:
      return elementary::pow(1 - 2 * beyond_one, l);
    case RunPattern::mixture:
      return elementary::pow(2 * beyond_one, l) - 2 * elementary::pow(beyond_one, l);
  }
  return 0;
}

}  // namespace driftwarden
