// SPDX-License-Identifier: MIT
#include "assessment/calibrator_scatter.hpp"

#include <algorithm>
#include <cmath>

#include "assessment/sample_assessment.hpp"
#include "system/in_parallel.hpp"

namespace driftwarden {
namespace {

void add_up_in_order_of_time(std::span<SetScatter> sets) {
  if (!std::ranges::is_sorted(sets, {}, &SetScatter::last)) std::ranges::stable_sort(sets, {}, &SetScatter::last);
  for (std::size_t i = 1; i < sets.size(); ++i) {
    sets[i].dof += sets[i - 1].dof;
    sets[i].squares += sets[i - 1].squares;
  }
}

}  // namespace

CalibratorScatter::CalibratorScatter(const Book& book, std::vector<ToldBySets>& told, unsigned threads)
    : up_to_(by_instrument(told, &ToldBySets::scatters, &SetScatter::calibrator, book.instruments.size())),
      is_handed_(!book.files.pooled.empty()) {
  share_out(book.instruments.size(), threads, [this] {
    return [this](std::size_t calibrator) { add_up_in_order_of_time(up_to_.of(static_cast<Row>(calibrator))); };
  });
  for (const HandedScatter& handed : book.handed_scatter) {
    handed_[{handed.calibrator, handed.before}] = {handed.s, handed.dof};
  }
}

PooledSpread CalibratorScatter::of_single(const SetRows& set) const {
  if (!is_handed_) return before(set.calibrator, set.first);
  const auto handed = handed_.find({set.calibrator, set.first});
  return handed == handed_.end() ? PooledSpread{} : handed->second;
}

std::vector<HandedScatter> scatter_leaned_on(const AssessmentBasis& basis, const SampleAssessment& figures) {
  std::vector<HandedScatter> leaned_on;
  for (const ReadingSet& set : figures.sets) {
    if (set.flow.n != 1) continue;
    const PooledSpread pooled = basis.scatter.of_single(set.rows);
    if (pooled.dof > 0) leaned_on.push_back({set.rows.calibrator, set.rows.first, pooled.s, pooled.dof});
  }
  return leaned_on;
}

PooledSpread CalibratorScatter::before(Row calibrator, Moment moment) const {
  const std::span<const SetScatter> sets = up_to_.of(calibrator);
  const auto later = std::ranges::lower_bound(sets, moment, {}, &SetScatter::last);
  if (later == sets.begin()) return {};
  const SetScatter& all = *(later - 1);
  return {std::sqrt(all.squares / all.dof), static_cast<double>(all.dof)};
}

}  // namespace driftwarden
