// SPDX-License-Identifier: MIT
#include "assessment/told_by_sets.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "assessment/drift.hpp"
#include "assessment/sample_assessment.hpp"
#include "system/in_parallel.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t a_stretch = 4096;  // samples or pumps that one thread hears at a time

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
        readings_(basis.book.readings),
        assessor_(basis, Depth::flows),
        reader_(basis.book, basis.calibrators, basis.practice.correction) {}

  // Samples come first, then pumps by their rows among the instruments.
  void hear(std::size_t stretch, ToldBySets& all) {
    Told told{all.uses, all.scatters[stretch]};
    const std::size_t of_samples = stretches(samples_.size());
    const bool is_of_samples = stretch < of_samples;
    const std::size_t begin = (is_of_samples ? stretch : stretch - of_samples) * a_stretch;
    const std::size_t rows = is_of_samples ? samples_.size() : basis_.book.instruments.size();
    const auto end = static_cast<Row>(std::min(begin + a_stretch, rows));
    for (auto row = static_cast<Row>(begin); row < end; ++row) {
      is_of_samples ? hear_sample(row, told) : hear_pump(row, told);
    }
    told.scatters.shrink_to_fit();  // all stretches are kept until everything is told: room left over would add up
  }

 private:
  struct Told {
    PumpUses& uses;
    std::vector<SetScatter>& scatters;
  };

  void hear_sample(Row sample, Told& told) {
    const SampleAssessment& figures = assessor_.assess(sample);
    const auto names_the_sample = [&](Row row) { return field(readings_.sample, row, no_row) == sample; };
    // A set that names its pump only is the pump's, however many samples lean on it.
    if (std::ranges::any_of(figures.rows,
                            [&](Row row) { return readings_.is_rejected(row) && names_the_sample(row); })) {
      hear_without_rejected(figures.rows, names_the_sample, told);
    } else {
      for (const ReadingSet& set : figures.sets) {
        if (names_the_sample(figures.rows[set.rows.begin])) hear_set(set, figures.rows_of(set).back(), told);
      }
    }
    const bool has_pump = figures.kind == SampleKind::sample && samples_.pump[sample] != no_row;
    if (has_pump && figures.problem == no_problem && !saw_a_fault(samples_, sample)) hear_use(figures, told);
  }

  void hear_use(const SampleAssessment& figures, Told& told) {
    const double moved = drift(figures.pre_l_min, figures.post_l_min, DriftBase::mean, missing);
    if (std::isfinite(moved))
      told.uses.add(samples_.pump[figures.sample], {figures.post_set()->rows.last, moved * moved});
  }

  void hear_pump(Row pump, Told& told) {
    for (const SetRows& set : basis_.pump_sets.of_pump(pump)) {
      const std::span<const Row> rows = basis_.pump_sets.rows().subspan(set.begin, set.count);
      hear_without_rejected(
          rows, [](Row) { return true; }, told);
    }
  }

  // The flow of a set has none of a reading that can't be understood; what the others scatter by is known all the same.
  template <class Counts>
  void hear_without_rejected(std::span<const Row> rows, Counts counts, Told& told) {
    rows_.clear();
    std::ranges::copy_if(rows, std::back_inserter(rows_),
                         [&](Row row) { return counts(row) && !readings_.is_rejected(row); });
    splitter_.split(readings_, rows_, sets_);
    for (const SetRows& set : sets_) {
      const std::span<const Row> of_set = std::span<const Row>(rows_).subspan(set.begin, set.count);
      hear_set(reader_.read_flow(of_set, set), of_set.back(), told);
    }
  }

  void hear_set(const ReadingSet& set, Row last, Told& told) {
    const MeanAndSpread& flow = set.flow;
    if (is_handed_ || is_missing(flow.s) || !(flow.mean > 0)) return;
    const double relative = flow.s / flow.mean;
    const auto dof = static_cast<std::uint32_t>(flow.n - 1);
    told.scatters.push_back({last, dof, dof * relative * relative});
  }

  const AssessmentBasis& basis_;
  const SampleTable& samples_;
  const ReadingTable& readings_;
  SampleAssessor assessor_;
  SetReader reader_;
  SetSplitter splitter_;
  std::vector<Row> rows_;
  std::vector<SetRows> sets_;
  bool is_handed_ = !basis_.book.files.pooled.empty();
};

}  // namespace

ToldBySets told_by_sets(const AssessmentBasis& basis, unsigned threads) {
  const Book& book = basis.book;
  const std::size_t of_pumps = basis.pump_sets.empty() ? 0 : stretches(book.instruments.size());
  ToldBySets told{{book.samples, book.instruments.size()}, {}};
  told.scatters.resize(stretches(book.samples.size()) + of_pumps);
  share_out(told.scatters.size(), threads, [&] {
    return [&, listener = Listener(basis)](std::size_t stretch) mutable { listener.hear(stretch, told); };
  });
  return told;
}

}  // namespace driftwarden
