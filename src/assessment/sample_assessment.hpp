// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "assessment/bracket.hpp"
#include "assessment/calibrator_scatter.hpp"
#include "assessment/flow_course.hpp"
#include "assessment/mass_change.hpp"
#include "assessment/practice.hpp"
#include "assessment/pump_drifts.hpp"
#include "assessment/sampler_facts.hpp"
#include "assessment/standard_index.hpp"

namespace driftwarden {

// Where the conditions behind a volume at reference conditions come from.
enum class ConditionsFrom : std::uint8_t { nowhere, sample, sets, altitude };

// All figures of one sample. Missing figures are NaN.
struct SampleAssessment {
  Row sample = no_row;
  SampleKind kind = SampleKind::sample;
  std::vector<Row> rows;         // the readings it leans on
  std::vector<ReadingSet> sets;  // and their sets, in order of stage and time
  std::int32_t pre = -1;         // the sets that count, places in `sets`
  std::int32_t post = -1;
  FlowCourse course;  // through the field sets; empty without any

  double nominal_l_min = missing;
  double pre_l_min = missing;
  double post_l_min = missing;
  double drift = missing;  // ratio
  double minutes = missing;
  double paused_min = missing;
  double mean_flow_l_min = missing;  // as measured: the mean of pre and post, or along the course
  double flow_l_min = missing;       // for the volume: that mean, or as the practice says
  double volume_l = missing;
  double volume_reference_l = missing;
  // Where the nominal flow stands for the measured one, the volume is a convention, and beside it stands what was
  // measured: what the budget is of. Elsewhere they are the same.
  bool is_conventional = false;
  double measured_volume_l = missing;
  double measured_volume_reference_l = missing;
  double temperature_k = missing;  // conditions behind the reference volume
  double pressure_kpa = missing;
  ConditionsFrom temperature_from = ConditionsFrom::nowhere;
  ConditionsFrom pressure_from = ConditionsFrom::nowhere;
  double pre_age_min = missing;
  double post_age_min = missing;
  double field_change_l_min = missing;    // of the field set farthest from the pre flow, with its sign
  double temperature_change_k = missing;  // of the set farthest from the sample's own, with its sign
  double pressure_change_kpa = missing;
  CutLaw cut;                  // of its sampler, from the sample's nominal flow
  double cut_um = missing;     // 50 % cut size at the mean flow as measured
  double cut_shift = missing;  // and its change
  ProblemNumber problem = no_problem;

  std::vector<ReadingStep> steps;  // of the readings that count, in their order; only where asked for

  const ReadingSet* pre_set() const { return pre < 0 ? nullptr : &sets[static_cast<std::size_t>(pre)]; }
  const ReadingSet* post_set() const { return post < 0 ? nullptr : &sets[static_cast<std::size_t>(post)]; }
  std::size_t field_count() const;
  std::span<const Row> rows_of(const ReadingSet& set) const {
    return std::span<const Row>(rows).subspan(set.rows.begin, set.rows.count);
  }
  // The flow that the measured volume is formed with.
  double measured_flow_l_min() const { return is_conventional ? mean_flow_l_min : flow_l_min; }
};

// How the volume came about, in a word: "measured" or "conventional".
inline std::string_view volume_is(const SampleAssessment& figures) {
  return figures.is_conventional ? "conventional" : "measured";
}

// What a book's samples are assessed with, worked out once and shared by all threads. The book has to outlive it.
struct AssessmentBasis {
  // `supposed`: what a look-back supposes instead of what certificates say.
  AssessmentBasis(const Book& book, const AssessmentPractice& practice, SamplerFacts samplers,
                  SupposedErrors supposed = {}, unsigned threads = 1);

  const Book& book;
  AssessmentPractice practice;
  SamplerFacts samplers;
  MassModels mass;
  CalibratorKnowledge calibrators;
  StandardIndex standards;
  ReadingIndex readings;
  PumpSets pump_sets;
  // Of what its sets tell, read with the others.
  CalibratorScatter scatter;
  PumpDrifts pump_drifts;

  // What the mean flow as measured did to the mass of a sample; and what another one would have done.
  std::optional<MassChange> mass_change(const SampleAssessment& figures) const;
  std::optional<MassChange> mass_change(const SampleAssessment& figures, double flow_l_min) const;
};

// How far a sample is assessed: which sets count, and their flows; all its figures; and the steps to them.
enum class Depth : std::uint8_t { flows, figures, steps };

// Assesses one sample after another, reusing its memory. One a thread.
class SampleAssessor {
 public:
  explicit SampleAssessor(const AssessmentBasis& basis, Depth depth = Depth::figures);

  // The result stays valid until the next call.
  const SampleAssessment& assess(Row sample);

 private:
  void gather_own_sets();
  void gather_pump_sets();
  ReadingSet read(std::span<const Row> rows, const SetRows& set);
  void note_problems();
  void take_set_flows();
  void work_out_flows();
  void work_out_volume();
  void work_out_conditions();
  void work_out_changes();
  void leave_out_what_leans_on_it();

  const AssessmentBasis& basis_;
  const SampleTable& samples_;
  const Depth depth_;
  SetReader set_reader_;
  SetSplitter splitter_;
  std::vector<SetRows> own_sets_;
  PumpSets::Bracket bracket_;
  SampleAssessment result_;
};

}  // namespace driftwarden
