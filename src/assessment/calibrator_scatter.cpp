// SPDX-License-Identifier: MIT
#include "assessment/calibrator_scatter.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "assessment/sample_assessment.hpp"
#include "system/in_parallel.hpp"

namespace driftwarden {
namespace {

void add_up_in_order_of_time(std::span<SetScatter> sets, const MomentColumn& taken) {
  const auto ended = [&taken](const SetScatter& set) { return taken[set.last]; };
  if (!std::ranges::is_sorted(sets, {}, ended)) std::ranges::stable_sort(sets, {}, ended);
  for (std::size_t i = 1; i < sets.size(); ++i) {
    sets[i].dof += sets[i - 1].dof;
    sets[i].squares += sets[i - 1].squares;
  }
}

}  // namespace

CalibratorScatter::CalibratorScatter(const Book& book, std::vector<std::vector<SetScatter>> told, unsigned threads)
    : taken_(&book.readings.taken), is_handed_(!book.files.pooled.empty()) {
  put_by_calibrator(std::move(told), book.readings.calibrator, book.instruments.size());
  share_out(book.instruments.size(), threads, [this] {
    return [this](std::size_t calibrator) {
      add_up_in_order_of_time({up_to_.data() + begins_[calibrator], up_to_.data() + begins_[calibrator + 1]}, *taken_);
    };
  });
  for (const HandedScatter& handed : book.handed_scatter) {
    handed_[{handed.calibrator, handed.before}] = {handed.s, handed.dof};
  }
}

// Those of one calibrator in the order in which they were told. What is put is let go of, stretch by stretch.
void CalibratorScatter::put_by_calibrator(std::vector<std::vector<SetScatter>> told, const Column<Row>& calibrators,
                                          std::size_t instruments) {
  begins_.assign(instruments + 2, 0);  // one more, while the begins are moved on
  for (const std::vector<SetScatter>& stretch : told) {
    for (const SetScatter& set : stretch) ++begins_[calibrators[set.last] + 2];
  }
  for (std::size_t i = 1; i < begins_.size(); ++i) begins_[i] += begins_[i - 1];
  up_to_.reserve(begins_.back());
  up_to_.set_size(begins_.back());
  for (std::vector<SetScatter>& stretch : told) {
    for (const SetScatter& set : std::exchange(stretch, {})) up_to_[begins_[calibrators[set.last] + 1]++] = set;
  }
  begins_.pop_back();
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
  const std::span<const SetScatter> sets = of(calibrator);
  const auto later =
      std::ranges::lower_bound(sets, moment, {}, [this](const SetScatter& set) { return (*taken_)[set.last]; });
  if (later == sets.begin()) return {};
  const SetScatter& all = *(later - 1);
  return {std::sqrt(all.squares / all.dof), static_cast<double>(all.dof)};
}

}  // namespace driftwarden
