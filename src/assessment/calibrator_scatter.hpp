// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <utility>
#include <vector>

#include "assessment/reading_set.hpp"
#include "assessment/told_by_sets.hpp"
#include "record/handed_scatter.hpp"
#include "statistics/pooled_spread.hpp"

namespace driftwarden {

struct AssessmentBasis;
struct SampleAssessment;

// How the readings of a calibrator scatter about the flow of their set, pooled over all its sets that ended before a
// moment: what a single reading, that tells nothing of its own scatter, leans on.
//
//   s_p = √( Σ (n_i − 1) (s_i / q_i)² / Σ (n_i − 1) )        u = s_p q        ν = Σ (n_i − 1)
//
//   n_i, s_i, q_i  readings, standard deviation and mean of a set's corrected readings, L/min
//   s_p, u, q      pooled, ratio; standard uncertainty of a single reading of q L/min
//   Source   JCGM 100 (GUM) 4.2.4; that scatter grows with the flow, and not with the pump, is this project's choice
//   Valid    sets of two readings and more; what is read later changes no earlier u
//   Example  sets of 3 with 0.2 % and of 2 with 0.5 %: √((2 · 0.2² + 0.5²) / 3) = 0.332 % with 3 degrees of freedom
class CalibratorScatter {
 public:
  CalibratorScatter() = default;
  // Of the scatters that were told, by stretch of the book.
  CalibratorScatter(const Book& book, std::vector<std::vector<SetScatter>> told, unsigned threads);

  // Of a set's single reading. A part of a split book knows what the whole book knew.
  PooledSpread of_single(const SetRows& set) const;
  // No degrees of freedom where no set was read before.
  PooledSpread before(Row calibrator, Moment moment) const;

 private:
  void put_by_calibrator(std::vector<std::vector<SetScatter>> told, const Column<Row>& calibrators,
                         std::size_t instruments);
  std::span<const SetScatter> of(Row calibrator) const {
    return {up_to_.data() + begins_[calibrator], up_to_.data() + begins_[calibrator + 1]};
  }

  const MomentColumn* taken_ = nullptr;  // of the book's readings
  std::vector<std::uint32_t> begins_;    // by calibrator, one more at the end
  Column<SetScatter> up_to_;             // by calibrator, in order of time, each with all before it
  std::map<std::pair<Row, Moment>, PooledSpread> handed_;
  bool is_handed_ = false;
};

// What a sample's sets lean on that are a single reading.
std::vector<HandedScatter> scatter_leaned_on(const AssessmentBasis& basis, const SampleAssessment& figures);

}  // namespace driftwarden
