// SPDX-License-Identifier: MIT
#include "assessment/told_by_sets.hpp"

#include <algorithm>
#include <cmath>

#include "assessment/drift.hpp"
#include "assessment/sample_assessment.hpp"
#include "system/in_parallel.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t a_stretch = 1024;

bool saw_a_fault(const SampleTable& samples, Row sample) {
  return field(samples.fault, sample, YesNo::unsaid) == YesNo::yes;
}

std::size_t stretches(std::size_t rows) { return (rows + a_stretch - 1) / a_stretch; }

// One a thread.
class Listener {
 public:
  explicit Listener(const AssessmentBasis& basis)
      : basis_(basis),
        samples_(basis.book.samples),
        assessor_(basis, Depth::flows),
        reader_(basis.book, basis.calibrators, basis.practice.correction) {}

  // Samples come first, then pumps by their rows among the instruments.
  void hear(std::size_t stretch, ToldBySets& told) {
    const std::size_t of_samples = stretches(samples_.size());
    const bool is_of_samples = stretch < of_samples;
    const std::size_t begin = (is_of_samples ? stretch : stretch - of_samples) * a_stretch;
    const std::size_t rows = is_of_samples ? samples_.size() : basis_.book.instruments.size();
    const auto end = static_cast<Row>(std::min(begin + a_stretch, rows));
    for (auto row = static_cast<Row>(begin); row < end; ++row) {
      is_of_samples ? hear_sample(row, told) : hear_pump(row, told);
    }
  }

 private:
  void hear_sample(Row sample, ToldBySets& told) {
    const SampleAssessment& figures = assessor_.assess(sample);
    for (const ReadingSet& set : figures.sets) {
      // A set that names its pump only is the pump's, however many samples lean on it.
      const Row first = figures.rows[set.rows.begin];
      if (field(basis_.book.readings.sample, first, no_row) == sample) hear_set(set, told);
    }
    const bool has_pump = figures.kind == SampleKind::sample && samples_.pump[sample] != no_row;
    if (has_pump && figures.problem == no_problem && !saw_a_fault(samples_, sample)) hear_use(figures, told);
  }

  void hear_use(const SampleAssessment& figures, ToldBySets& told) {
    const double moved = drift(figures.pre_l_min, figures.post_l_min, DriftBase::mean, missing);
    if (std::isfinite(moved))
      told.uses.push_back({samples_.pump[figures.sample], figures.post_set()->rows.last, moved * moved});
  }

  void hear_pump(Row pump, ToldBySets& told) {
    for (const SetRows& set : basis_.pump_sets.of_pump(pump)) {
      hear_set(reader_.read_flow(basis_.pump_sets.rows().subspan(set.begin, set.count), set), told);
    }
  }

  void hear_set(const ReadingSet& set, ToldBySets& told) {
    const MeanAndSpread& flow = set.flow;
    if (is_handed_ || is_missing(flow.s) || !(flow.mean > 0)) return;
    const double relative = flow.s / flow.mean;
    const auto dof = static_cast<std::uint32_t>(flow.n - 1);
    told.scatters.push_back({set.rows.calibrator, dof, set.rows.last, dof * relative * relative});
  }

  const AssessmentBasis& basis_;
  const SampleTable& samples_;
  SampleAssessor assessor_;
  SetReader reader_;
  bool is_handed_ = !basis_.book.files.pooled.empty();
};

}  // namespace

std::vector<ToldBySets> told_by_sets(const AssessmentBasis& basis, unsigned threads) {
  const std::size_t of_pumps = basis.pump_sets.empty() ? 0 : stretches(basis.book.instruments.size());
  std::vector<ToldBySets> told(stretches(basis.book.samples.size()) + of_pumps);
  share_out(told.size(), threads, [&] {
    return [&, listener = Listener(basis)](std::size_t stretch) mutable { listener.hear(stretch, told[stretch]); };
  });
  return told;
}

}  // namespace driftwarden
