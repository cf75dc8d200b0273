// SPDX-License-Identifier: MIT
#include "book/problem_list.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace driftwarden {

ProblemNumber ProblemList::add(Diagnostic problem) {
  const std::scoped_lock lock(mutex_);
  problems_.push_back(std::move(problem));
  return static_cast<ProblemNumber>(problems_.size());
}

void ProblemList::add(const Diagnostics& problems) {
  for (const Diagnostic& problem : problems) add(problem);
}

void ProblemList::set_hint(ProblemNumber problem, std::string hint) {
  const std::scoped_lock lock(mutex_);
  problems_[problem - 1].hint = std::move(hint);
}

void ProblemList::add_unknown(Unknown unknown) {
  if (unknown.problem == no_problem) return;
  const std::scoped_lock lock(mutex_);
  unknown_.push_back(std::move(unknown));
}

void ProblemList::back_to(std::size_t mark) {
  problems_.resize(mark);
  std::erase_if(unknown_, [mark](const Unknown& unknown) { return unknown.problem > mark; });
}

ProblemList::Sorted ProblemList::sorted() const {
  std::vector<std::size_t> order(problems_.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [this](std::size_t a, std::size_t b) {
    const Diagnostic& x = problems_[a];
    const Diagnostic& y = problems_[b];
    return std::tie(x.place, x.id, x.message) < std::tie(y.place, y.id, y.message);
  });
  Sorted result;
  result.new_number.resize(problems_.size() + 1, no_problem);
  for (const std::size_t old : order) {
    result.problems.push_back(problems_[old]);
    result.new_number[old + 1] = static_cast<ProblemNumber>(result.problems.size());
  }
  return result;
}

}  // namespace driftwarden
