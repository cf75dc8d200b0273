// SPDX-License-Identifier: MIT
#include "assessment/sample_assessment.hpp"

#include <cmath>

#include "assessment/cut_size.hpp"
#include "assessment/drift.hpp"
#include "assessment/sampled_volume.hpp"
#include "correction/reference_conditions.hpp"

namespace driftwarden {
namespace {

// The larger of two changes in size, with its sign; a missing one is passed over.
double larger(double a, double b) {
  if (is_missing(a)) return b;
  return is_missing(b) || std::abs(a) >= std::abs(b) ? a : b;
}

// Of the readings of a set, not of the site's altitude.
double read_pressure(const ReadingSet* set) {
  return set == nullptr || set->has_altitude_pressure ? missing : set->pressure_kpa;
}

double mean_of_known(double a, double b) {
  if (is_missing(a)) return b;
  return is_missing(b) ? a : (a + b) / 2;
}

}  // namespace

std::size_t SampleAssessment::field_count() const {
  std::size_t count = 0;
  for (const ReadingSet& set : sets) count += set.rows.stage == Stage::field ? set.flow.n : 0;
  return count;
}

AssessmentBasis::AssessmentBasis(const Book& the_book, const AssessmentPractice& the_practice, SamplerFacts facts,
                                 SupposedErrors supposed, unsigned threads)
    : book(the_book),
      practice(the_practice),
      samplers(std::move(facts)),
      mass(the_book.samples, samplers, aerosols_of(the_book.settings)),
      calibrators(the_book, std::move(supposed)),
      standards(the_book),
      readings(the_book),
      pump_sets(the_book) {
  ToldBySets told = told_by_sets(*this, threads);
  scatter = CalibratorScatter(book, std::move(told.scatters), threads);
  pump_drifts = PumpDrifts(std::move(told.uses), threads);
}

std::optional<MassChange> AssessmentBasis::mass_change(const SampleAssessment& figures) const {
  std::optional<MassChange> change = mass_change(figures, figures.mean_flow_l_min);
  if (change)
    change->bias = error_by_volume(change->errors.bias_by_actual_volume, figures.mean_flow_l_min, figures.flow_l_min);
  return change;
}

std::optional<MassChange> AssessmentBasis::mass_change(const SampleAssessment& figures, double flow_l_min) const {
  return mass.of(field(book.samples.sampler, figures.sample, TextId{0}), figures.nominal_l_min, flow_l_min);
}

SampleAssessor::SampleAssessor(const AssessmentBasis& basis, Depth depth)
    : basis_(basis),
      samples_(basis.book.samples),
      depth_(depth),
      set_reader_(basis.book, basis.calibrators, basis.practice.correction) {}

const SampleAssessment& SampleAssessor::assess(Row sample) {
  std::vector<Row> rows = std::move(result_.rows);
  std::vector<ReadingSet> sets = std::move(result_.sets);
  FlowCourse course = std::move(result_.course);
  result_ = {};
  result_.rows = std::move(rows);
  result_.sets = std::move(sets);
  result_.course = std::move(course);
  result_.sets.clear();
  result_.sample = sample;
  result_.kind = samples_.kind[sample];
  result_.problem = samples_.problem[sample];
  gather_own_sets();
  gather_pump_sets();
  const SetsThatCount count = sets_that_count(result_.sets, samples_.started[sample], samples_.stopped[sample]);
  result_.pre = count.pre;
  result_.post = count.post;
  note_problems();
  take_set_flows();
  if (depth_ == Depth::flows) return result_;
  work_out_flows();
  work_out_conditions();
  work_out_volume();
  work_out_changes();
  if (result_.problem != no_problem) leave_out_what_leans_on_it();
  return result_;
}

// No figure is guessed from records that can't be understood. What a sound set or the sample's own row says by itself
// stays.
void SampleAssessor::leave_out_what_leans_on_it() {
  for (double* figure : {&result_.drift, &result_.mean_flow_l_min, &result_.flow_l_min, &result_.volume_l,
                         &result_.volume_reference_l, &result_.measured_volume_l, &result_.measured_volume_reference_l,
                         &result_.cut_um, &result_.cut_shift, &result_.field_change_l_min}) {
    *figure = missing;
  }
  if (samples_.problem[result_.sample] != no_problem) result_.minutes = missing;
}

ReadingSet SampleAssessor::read(std::span<const Row> rows, const SetRows& set) {
  switch (depth_) {
    case Depth::flows:
      return set_reader_.read_flow(rows, set);
    case Depth::figures:
      break;
    case Depth::steps:
      return set_reader_.read(rows, set, result_.steps);
  }
  return set_reader_.read(rows, set);
}

// The sets of the readings that name the sample.
void SampleAssessor::gather_own_sets() {
  basis_.readings.of_sample(result_.sample, result_.rows);
  if (result_.rows.empty()) return;
  splitter_.split(basis_.book.readings, result_.rows, own_sets_);
  std::size_t in_sets = 0;
  for (const SetRows& set : own_sets_) {
    result_.sets.push_back(read(std::span(result_.rows).subspan(set.begin, set.count), set));
    in_sets += set.count;
  }
  // Readings whose time is lost stand behind the sets.
  for (std::size_t i = in_sets; i < result_.rows.size() && result_.problem == no_problem; ++i) {
    result_.problem = basis_.book.readings.problem.at(result_.rows[i]);
  }
}

// The sets of the bracket on the pump, for the stages that no reading of the sample's own covers.
void SampleAssessor::gather_pump_sets() {
  const Row sample = result_.sample;
  if (basis_.pump_sets.empty() || samples_.started[sample] == no_moment || samples_.stopped[sample] == no_moment)
    return;
  basis_.pump_sets.bracket(samples_.pump[sample], samples_.started[sample], samples_.stopped[sample], bracket_);
  bool has_own[3] = {false, false, false};
  for (const ReadingSet& set : result_.sets) has_own[static_cast<std::size_t>(set.rows.stage)] = true;
  const auto add = [&](const SetRows* set) {
    if (set == nullptr || has_own[static_cast<std::size_t>(set->stage)]) return;
    const std::span<const Row> rows = basis_.pump_sets.rows().subspan(set->begin, set->count);
    SetRows here = *set;
    here.begin = static_cast<std::uint32_t>(result_.rows.size());
    result_.rows.insert(result_.rows.end(), rows.begin(), rows.end());
    result_.sets.push_back(read(rows, here));
  };
  add(bracket_.pre);
  for (const SetRows* set : bracket_.field) add(set);
  for (const SetRows* set : bracket_.struck_out) add(set);
  add(bracket_.post);
  const bool leans_on_pump = !has_own[0] || !has_own[2];
  if (leans_on_pump && result_.problem == no_problem) result_.problem = bracket_.problem;
}

void SampleAssessor::note_problems() {
  for (const ReadingSet& set : result_.sets) {
    if (result_.problem == no_problem) result_.problem = set.problem;
  }
  const bool lacks_a_set = result_.pre < 0 || result_.post < 0;
  if (result_.problem == no_problem && lacks_a_set && result_.kind == SampleKind::sample) {
    result_.problem = basis_.book.lost_readings;
  }
}

void SampleAssessor::take_set_flows() {
  const Row sample = result_.sample;
  if (const ReadingSet* pre = result_.pre_set()) {
    result_.pre_l_min = pre->flow.mean;
    result_.pre_age_min = minutes_between(pre->rows.last, samples_.started[sample]);
  }
  if (const ReadingSet* post = result_.post_set()) {
    result_.post_l_min = post->flow.mean;
    result_.post_age_min = minutes_between(samples_.stopped[sample], post->rows.first);
  }
}

void SampleAssessor::work_out_flows() {
  const Row sample = result_.sample;
  const TextId sampler = field(samples_.sampler, sample, TextId{0});
  result_.nominal_l_min = nominal_flow(samples_, basis_.samplers, sample);
  result_.drift = drift(result_.pre_l_min, result_.post_l_min, basis_.practice.drift_base, result_.nominal_l_min);
  const auto flow_by = [this](FlowForVolume practice) {
    return flow_for_volume(result_.pre_l_min, result_.post_l_min, result_.nominal_l_min, practice);
  };
  result_.is_conventional = basis_.practice.flow_for_volume == FlowForVolume::nominal;
  result_.mean_flow_l_min = flow_by(FlowForVolume::mean);
  result_.flow_l_min = flow_by(basis_.practice.flow_for_volume);
  lay_course(result_.sets, {result_.pre, result_.post, samples_.started[sample], samples_.stopped[sample]},
             result_.course);
  if (follows(basis_.practice.field_sets, result_.course))
    result_.mean_flow_l_min = result_.flow_l_min = result_.course.mean_l_min;
  result_.cut = with_nominal(basis_.samplers.of(sampler).cut, result_.nominal_l_min);
  result_.cut_shift = cut_shift(result_.cut, result_.mean_flow_l_min);
  result_.cut_um = result_.cut.nominal_um * (1 + result_.cut_shift);
}

// The sample's own conditions, else those of its sets, else the pressure of the site's altitude.
void SampleAssessor::work_out_conditions() {
  const ReadingSet* pre = result_.pre_set();
  const ReadingSet* post = result_.post_set();
  result_.temperature_k = field(samples_.temperature_k, result_.sample);
  result_.temperature_from = ConditionsFrom::sample;
  if (is_missing(result_.temperature_k)) {
    result_.temperature_k =
        mean_of_known(pre == nullptr ? missing : pre->temperature_k, post == nullptr ? missing : post->temperature_k);
    result_.temperature_from = is_missing(result_.temperature_k) ? ConditionsFrom::nowhere : ConditionsFrom::sets;
  }
  result_.pressure_kpa = field(samples_.pressure_kpa, result_.sample);
  result_.pressure_from = ConditionsFrom::sample;
  if (!is_missing(result_.pressure_kpa)) return;
  result_.pressure_kpa = mean_of_known(read_pressure(pre), read_pressure(post));
  result_.pressure_from = ConditionsFrom::sets;
  if (!is_missing(result_.pressure_kpa)) return;
  result_.pressure_kpa = basis_.calibrators.site_pressure_kpa().value_or(missing);
  result_.pressure_from = is_missing(result_.pressure_kpa) ? ConditionsFrom::nowhere : ConditionsFrom::altitude;
}

void SampleAssessor::work_out_volume() {
  const Row sample = result_.sample;
  result_.paused_min = field(samples_.paused_min, sample);
  result_.minutes = minutes_sampled(samples_.started[sample], samples_.stopped[sample], result_.paused_min);
  const Conditions conditions{Temperature(result_.temperature_k), Pressure(result_.pressure_kpa)};
  const auto form = [&](double flow_l_min, double& volume_l, double& volume_reference_l) {
    volume_l = flow_l_min * result_.minutes;
    volume_reference_l = at_reference(volume_l, conditions, basis_.book.settings.reference);
  };
  form(result_.flow_l_min, result_.volume_l, result_.volume_reference_l);
  result_.measured_volume_l = result_.volume_l;
  result_.measured_volume_reference_l = result_.volume_reference_l;
  if (result_.is_conventional)
    form(result_.mean_flow_l_min, result_.measured_volume_l, result_.measured_volume_reference_l);
}

void SampleAssessor::work_out_changes() {
  const double own_temperature = field(samples_.temperature_k, result_.sample);
  const double own_pressure = field(samples_.pressure_kpa, result_.sample);
  for (const ReadingSet* set : {result_.pre_set(), result_.post_set()}) {
    if (set == nullptr) continue;
    result_.temperature_change_k = larger(result_.temperature_change_k, set->temperature_k - own_temperature);
    result_.pressure_change_kpa = larger(result_.pressure_change_kpa, set->pressure_kpa - own_pressure);
  }
  for (const ReadingSet& set : result_.sets) {
    if (set.rows.stage != Stage::field) continue;
    const double here = set.flow.mean - result_.pre_l_min;
    result_.field_change_l_min = larger(result_.field_change_l_min, here);
  }
}

}  // namespace driftwarden
