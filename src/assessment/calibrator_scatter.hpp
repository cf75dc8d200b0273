// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "assessment/reading_set.hpp"
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
//
// Worked out for a calibrator when first asked for, once for all threads.
class CalibratorScatter {
 public:
  explicit CalibratorScatter(const Book& book);
  ~CalibratorScatter();
  CalibratorScatter(CalibratorScatter&&) noexcept;

  // Of a set's single reading. A part of a split book knows what the whole book knew.
  PooledSpread of_single(const AssessmentBasis& basis, const SetRows& set) const;
  // No degrees of freedom where no set was read before.
  PooledSpread before(const AssessmentBasis& basis, Row calibrator, Moment moment) const;

 private:
  struct Readings;
  struct OfCalibrator;
  std::unique_ptr<Readings> readings_;
  std::unique_ptr<OfCalibrator[]> of_;
  std::map<std::pair<Row, Moment>, PooledSpread> handed_;
};

// What a sample's sets lean on that are a single reading.
std::vector<HandedScatter> scatter_leaned_on(const AssessmentBasis& basis, const SampleAssessment& figures);

}  // namespace driftwarden
