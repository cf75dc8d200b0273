// SPDX-License-Identifier: MIT
#include "verdict/readings_ahead.hpp"

#include <algorithm>

#include "doubt/replicates.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t newest_sets = 20;  // older ones tell how it was done before
constexpr int readings_where_nobody_says = 3;
constexpr int most_by_habit = 12;  // more would fill a sheet, and nobody asks for them

// The number that most of the newest sets had.
int most_frequent(const std::vector<const Replicates*>& newest_first) {
  std::map<std::size_t, std::size_t> sets_of;
  for (std::size_t i = 0; i < std::min(newest_first.size(), newest_sets); ++i) ++sets_of[newest_first[i]->rows.size()];
  std::size_t usual = 0;
  for (const auto& [readings, sets] : sets_of) {
    if (usual == 0 || sets >= sets_of[usual]) usual = readings;
  }
  return static_cast<int>(usual);
}

}  // namespace

ReadingHabit::ReadingHabit(const Book& book, Day as_of) {
  const std::vector<Replicates> sets = replicates_of(book, ComeBy(book, as_of));
  std::vector<const Replicates*> all;
  for (const Replicates& set : sets) {
    if (set.stage != Stage::field) all.push_back(&set);
  }
  std::ranges::stable_sort(all, std::ranges::greater(), &Replicates::first);
  std::map<Row, std::vector<const Replicates*>> by_calibrator;
  for (const Replicates* set : all) by_calibrator[set->calibrator].push_back(set);
  for (const auto& [calibrator, of_it] : by_calibrator) of_[calibrator] = most_frequent(of_it);
  of_all_ = most_frequent(all);
}

int ReadingHabit::of(Row calibrator) const {
  const auto found = of_.find(calibrator);
  return found == of_.end() ? of_all_ : found->second;
}

std::size_t readings_ahead(int asked, int usual) {
  const int room = std::max(asked, std::min(usual, most_by_habit));
  return static_cast<std::size_t>(room > 0 ? room : readings_where_nobody_says);
}

}  // namespace driftwarden
