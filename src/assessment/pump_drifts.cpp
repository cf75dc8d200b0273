// SPDX-License-Identifier: MIT
#include "assessment/pump_drifts.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <tuple>

#include "assessment/drift.hpp"
#include "assessment/sample_assessment.hpp"
#include "system/in_parallel.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t samples_a_block = 1024;

struct Use {
  Row pump = no_row;
  Moment closed = no_moment;
  double square = 0;

  std::tuple<Row, Moment, double> order() const { return {pump, closed, -square}; }
};

bool saw_a_fault(const SampleTable& samples, Row sample) {
  return field(samples.fault, sample, YesNo::unsaid) == YesNo::yes;
}

// The pump is no_row where the sample is no use of one.
Use use_of(const SampleTable& samples, const SampleAssessment& figures) {
  const double moved = drift(figures.pre_l_min, figures.post_l_min, DriftBase::mean, missing);
  if (figures.problem != no_problem || saw_a_fault(samples, figures.sample) || !std::isfinite(moved)) return {};
  return {samples.pump[figures.sample], figures.post_set()->rows.last, moved * moved};
}

// One a sample that can have a pump's flow.
std::vector<Use> uses_of(const AssessmentBasis& basis, unsigned threads) {
  const SampleTable& samples = basis.book.samples;
  std::vector<Use> uses(samples.size());
  std::atomic<std::size_t> next{0};
  const auto work = [&](std::size_t) {
    SampleAssessor assessor(basis, Depth::flows);
    for (std::size_t first; (first = next.fetch_add(samples_a_block)) < uses.size();) {
      const std::size_t last = std::min(first + samples_a_block, uses.size());
      for (auto row = static_cast<Row>(first); row < last; ++row) {
        const bool has_pump = samples.kind[row] == SampleKind::sample && samples.pump[row] != no_row;
        if (has_pump) uses[row] = use_of(samples, assessor.assess(row));
      }
    }
  };
  in_parallel(std::min<std::size_t>(threads, uses.size() / samples_a_block + 1), work);
  return uses;
}

}  // namespace

PumpDrifts::PumpDrifts(const AssessmentBasis& basis, unsigned threads) {
  std::vector<Use> uses = uses_of(basis, threads);
  std::erase_if(uses, [](const Use& use) { return use.pump == no_row; });
  std::sort(uses.begin(), uses.end(), [](const Use& a, const Use& b) { return a.order() < b.order(); });
  // Of one bracket the first stays.
  const auto is_same = [](const Use& a, const Use& b) { return a.pump == b.pump && a.closed == b.closed; };
  uses.erase(std::unique(uses.begin(), uses.end(), is_same), uses.end());
  begin_.assign(basis.book.instruments.size() + 1, 0);
  for (const Use& use : uses) ++begin_[use.pump + 1];
  for (std::size_t pump = 1; pump < begin_.size(); ++pump) begin_[pump] += begin_[pump - 1];
  for (std::size_t i = 0; i < uses.size(); ++i) {
    const bool is_first = i == begin_[uses[i].pump];
    closed_.push_back(uses[i].closed);
    squares_.push_back(uses[i].square + (is_first ? 0 : squares_.back()));
  }
}

DriftSpread PumpDrifts::before(Row pump, Moment moment) const {
  if (pump == no_row) return {};
  const auto first = closed_.begin() + begin_[pump];
  const auto end = std::lower_bound(first, closed_.begin() + begin_[pump + 1], moment);
  if (end == first) return {};
  const auto uses = static_cast<std::uint32_t>(end - first);
  return {uses, std::sqrt(squares_[static_cast<std::size_t>(end - closed_.begin()) - 1] / uses)};
}

}  // namespace driftwarden
