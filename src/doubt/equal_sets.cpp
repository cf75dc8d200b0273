// SPDX-License-Identifier: MIT
#include "doubt/equal_sets.hpp"

#include <algorithm>
#include <utility>

#include "quantity/rounding.hpp"
#include "statistics/estimated_spread.hpp"
#include "statistics/identical_replicates.hpp"

namespace driftwarden {
namespace {

struct EqualSet {
  std::size_t set = 0;
  double chance = 1;
};

Diagnostic told_of(const Book& book, const Replicates& set, const PooledSpread& known, double chance, double sets) {
  return remark("doubt/identical", place_of(book, set.rows.front()),
                "all " + std::to_string(set.rows.size()) + " readings of a set of " +
                    std::string(owner_name(book, set)) + " are the same; as those of " +
                    book.instruments[set.calibrator].name + " on " + book.instruments[set.pump].name + " scatter (" +
                    with_significant_digits(100 * known.s, 2) + " %, " +
                    counted(static_cast<std::size_t>(known.dof), "degree", "degrees") +
                    " of freedom), that comes by chance in one set of " + one_in(chance) + ", and among the " +
                    with_decimals(sets, 0) + " sets of this book " + how_often_in_books(chance * sets),
                "ask whether each was read, or one was written down again");
}

}  // namespace

double chance_of_equal(std::size_t n, const PooledSpread& in_steps) {
  if (!(in_steps.dof > 0)) return 1;
  return mean_over_estimated_spread(in_steps.dof, [&](double sigma_over_s) {
    return probability_of_identical_readings(n, sigma_over_s * in_steps.s);
  });
}

void note_equal_sets(const Book& book, const std::vector<Replicates>& all, const ScatterMap& scatter,
                     Diagnostics& doubts) {
  PairScatter known(all);
  const auto is_asked = [](const Replicates& set) { return set.rows.size() >= fewest_in_a_set; };
  const auto sets = static_cast<double>(std::ranges::count_if(all, is_asked));
  std::vector<std::size_t> equal;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (is_asked(all[i]) && all[i].pump != no_row && all[i].are_all_equal()) equal.push_back(i);
  }
  const auto is_rare = [&](double chance) { return chance * sets < false_doubts_a_book; };
  const auto found = [&] {
    std::vector<EqualSet> rare;
    for (const std::size_t i : equal) {
      const std::size_t n = all[i].rows.size();
      const PooledSpread in_steps = known.in_steps(i, scatter.at(all[i].calibrator).step);
      // What is estimated makes it more frequent, never rarer.
      if (!(in_steps.dof > 0) || !is_rare(probability_of_identical_readings(n, in_steps.s))) continue;
      const double chance = chance_of_equal(n, in_steps);
      if (is_rare(chance)) rare.push_back({i, chance});
    }
    return rare;
  };
  // What is found tells nothing of how the pair scatters: left out, it hides no other.
  std::vector<EqualSet> rare = found();
  for (std::size_t before = 0; before < rare.size();) {
    before = rare.size();
    std::vector<bool> left_out(all.size(), false);
    for (const EqualSet& one : rare) left_out[one.set] = true;
    known.leave_out(std::move(left_out));
    rare = found();
  }
  for (const EqualSet& one : rare) {
    doubts.push_back(told_of(book, all[one.set], known.of_pair(one.set), one.chance, sets));
  }
}

}  // namespace driftwarden
