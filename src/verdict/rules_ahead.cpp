// SPDX-License-Identifier: MIT
#include "verdict/rules_ahead.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "book/planned_name.hpp"
#include "book/stamp_text.hpp"

namespace driftwarden {
namespace {

// The calibrator a sample was read with first; no_row: none.
Row calibrator_of(const AssessmentBasis& basis, Row sample) {
  std::vector<Row> rows;
  basis.readings.of_sample(sample, rows);
  for (const Row row : rows) {
    if (basis.book.readings.calibrator[row] != no_row) return basis.book.readings.calibrator[row];
  }
  return no_row;
}

SampleAhead recorded(const Screening& screening, Row row) {
  const Book& book = screening.book();
  const SampleTable& table = book.samples;
  const auto text = [&](const Column<TextId>& column) { return book.texts.text(field(column, row, TextId{0})); };
  SampleAhead sample;
  sample.is_recorded = true;
  sample.name = table.name[row];
  sample.batch = text(table.batch);
  sample.kind = table.kind[row];
  sample.pump = table.pump[row];
  sample.calibrator = calibrator_of(screening.basis(), row);
  sample.sampler = text(table.sampler);
  sample.nominal_l_min = nominal_flow(table, screening.basis().samplers, row);
  sample.method = text(table.method);
  sample.analysis = text(table.analysis);
  sample.medium = text(table.medium);
  if (table.started[row] != no_moment) sample.day = local_day(table.started[row], book.settings.zone);
  return sample;
}

const Sampler* sampler_named(const RuleSet& rules, const std::string& name) {
  const auto found = rules.samplers.find(name);
  return found == rules.samplers.end() ? nullptr : &found->second;
}

SampleAhead planned(const Screening& screening, const PlannedSample& plan) {
  SampleAhead sample{plan};
  sample.nominal_l_min = nominal_flow(screening.rules(), plan.nominal_l_min, plan.sampler);
  return sample;
}

// What is not recorded yet.
void add_planned(const Screening& screening, const PlannedSample& plan, SamplesAhead& ahead) {
  if (plan.recorded == no_row) ahead.samples.push_back(planned(screening, plan));
  if (is_name_taken(screening.book(), plan)) ahead.left_out.push_back(&plan);
}

// What is known beforehand of what a rule's `where` asks for.
class KnownAhead {
 public:
  KnownAhead(const Screening& screening, const SampleAhead& sample, Row calibrator)
      : book_(screening.book()), rules_(screening.rules()), sample_(sample), calibrator_(calibrator) {}

  bool may_apply(const Rule& rule) const {
    bool speaks_of_kind = false;
    for (const Condition& condition : rule.where) {
      speaks_of_kind |= condition.field == "kind";
      const FieldValue value = rule.of == Subject::set ? of_set(condition.field) : of_sample(condition.field);
      if (applies(condition, value) == Applies::no) return false;
    }
    return speaks_of_kind || sample_.kind == SampleKind::sample;
  }

 private:
  FieldValue of_sample(std::string_view name) const {
    if (name == "kind") return {missing, to_text(sample_.kind)};
    if (name == "batch") return {missing, sample_.batch};
    if (name == "pump") return {missing, name_of(sample_.pump)};
    if (name == "sampler") return {missing, sample_.sampler};
    if (name == "fraction") {
      const Sampler* sampler = sampler_named(rules_, sample_.sampler);
      return {missing, sampler == nullptr ? std::string_view() : std::string_view(sampler->fraction)};
    }
    if (name == "nominal") return {sample_.nominal_l_min, {}};
    if (name == "method") return {missing, sample_.method};
    if (name == "analysis") return {missing, sample_.analysis};
    if (name == "fault") return {missing, "no"};
    return {};
  }

  FieldValue of_set(std::string_view name) const {
    if (name == "stage") return {missing, to_text(Stage::pre)};
    if (name == "principle")
      return {missing, calibrator_ == no_row ? std::string_view() : to_text(book_.instruments[calibrator_].principle)};
    if (name == "calibrator") return {missing, name_of(calibrator_)};
    return of_sample(name);
  }

  std::string_view name_of(Row instrument) const {
    return instrument == no_row ? std::string_view() : std::string_view(book_.instruments[instrument].name);
  }

  const Book& book_;
  const RuleSet& rules_;
  const SampleAhead& sample_;
  Row calibrator_;
};

bool is_on_pre_flow(const Rule& rule) {
  if (rule.of == Subject::sample) {
    return rule.measure == static_cast<std::size_t>(SampleMeasure::pre_flow) ||
           rule.measure == static_cast<std::size_t>(SampleMeasure::pre_deviation);
  }
  return rule.of == Subject::set && (rule.measure == static_cast<std::size_t>(SetMeasure::flow) ||
                                     rule.measure == static_cast<std::size_t>(SetMeasure::flow_deviation));
}

// The smallest whole number that keeps the rule, where it asks for at least some.
void ask_for_count(const Rule& rule, int& count) {
  if (!(rule.limit.low > 0) || !std::isfinite(rule.limit.low)) return;
  const double least = includes_its_ends(rule.limit.form) ? std::ceil(rule.limit.low) : std::floor(rule.limit.low) + 1;
  count = std::max(count, static_cast<int>(std::min(least, 99.0)));
}

void ask_sample(const Rule& rule, RulesAhead& ahead) {
  const double high = std::isfinite(rule.limit.high) ? rule.limit.high : missing;
  const auto is_on = [&rule](SampleMeasure measure) { return rule.measure == static_cast<std::size_t>(measure); };
  if (is_on(SampleMeasure::warm_up) && rule.limit.low > 0)
    ahead.warm_up_min = std::fmax(ahead.warm_up_min, rule.limit.low);
  if (is_on(SampleMeasure::pre_age)) ahead.pre_age_max_min = std::fmin(ahead.pre_age_max_min, high);
  if (is_on(SampleMeasure::post_age)) ahead.post_age_max_min = std::fmin(ahead.post_age_max_min, high);
  if (is_on(SampleMeasure::pre_count)) ask_for_count(rule, ahead.pre_count);
  if (is_on(SampleMeasure::post_count)) ask_for_count(rule, ahead.post_count);
  if (is_on(SampleMeasure::field_count)) ask_for_count(rule, ahead.field_count);
  if (is_on(SampleMeasure::vacuum)) ahead.asks_for_vacuum = true;
  if (is_on(SampleMeasure::leak)) ahead.asks_for_leak = true;
  if (is_on(SampleMeasure::interruptions)) ahead.asks_for_interruptions = true;
  if (is_on(SampleMeasure::volume)) ahead.volume.push_back(&rule);
  if (is_on(SampleMeasure::minutes)) ahead.minutes.push_back(&rule);
  if (is_on(SampleMeasure::drift)) ahead.drift.push_back(&rule);
  if (is_on(SampleMeasure::volume_reference)) ahead.volume_reference.push_back(&rule);
  if (is_on(SampleMeasure::volume_uncertainty) || is_on(SampleMeasure::paused)) ahead.not_foretold.push_back(&rule);
}

}  // namespace

FlowBand RulesAhead::pre_band() const {
  FlowBand all;
  for (const auto& [rule, band] : pre_flow) {
    if (band.low_l_min > all.low_l_min) all.includes_low = true;
    if (band.high_l_min < all.high_l_min) all.includes_high = true;
    if (band.low_l_min >= all.low_l_min) all.includes_low &= band.includes_low;
    if (band.high_l_min <= all.high_l_min) all.includes_high &= band.includes_high;
    all.low_l_min = std::max(all.low_l_min, band.low_l_min);
    all.high_l_min = std::min(all.high_l_min, band.high_l_min);
  }
  return all;
}

double nominal_flow(const RuleSet& rules, double own_l_min, const std::string& sampler) {
  if (!is_missing(own_l_min)) return own_l_min;
  const Sampler* named = sampler_named(rules, sampler);
  return named == nullptr ? missing : named->nominal_l_min.value_or(missing);
}

SamplesAhead samples_ahead(const Screening& screening, std::string_view batch) {
  const Book& book = screening.book();
  SamplesAhead ahead;
  for (Row row = 0; row < book.samples.size(); ++row) {
    if (book.texts.text(field(book.samples.batch, row, TextId{0})) == batch)
      ahead.samples.push_back(recorded(screening, row));
  }
  for (const PlannedSample& plan : book.plan) {
    if (plan.batch == batch) add_planned(screening, plan, ahead);
  }
  return ahead;
}

SamplesAhead samples_planned_with(const Screening& screening, const std::vector<Row>& pumps) {
  SamplesAhead ahead;
  for (const PlannedSample& plan : screening.book().plan) {
    const bool is_with_one = plan.pump != no_row && std::find(pumps.begin(), pumps.end(), plan.pump) != pumps.end();
    if (is_with_one) add_planned(screening, plan, ahead);
  }
  return ahead;
}

std::vector<std::string> batch_names(const Book& book) {
  std::set<std::string> names;
  for (const TextId batch : book.samples.batch) names.insert(book.texts.text(batch));
  for (const PlannedSample& plan : book.plan) names.insert(plan.batch);
  names.erase("");
  return {names.begin(), names.end()};
}

RulesAhead rules_ahead(const Screening& screening, const SampleAhead& sample, Row calibrator) {
  const KnownAhead known(screening, sample, calibrator);
  RulesAhead ahead;
  const SampleTable& table = screening.book().samples;
  ahead.asks_for_pressure_drop = sample.kind == SampleKind::sample && table.pressure_drop_kpa.size() > 0;
  ahead.asks_for_pulsation = sample.kind == SampleKind::sample && table.pulsation.size() > 0;
  for (const Rule& rule : screening.rules().rules) {
    if (!known.may_apply(rule)) continue;
    if (is_on_pre_flow(rule)) {
      if (const auto band = flow_band(rule, sample.nominal_l_min)) ahead.pre_flow.push_back({&rule, *band});
    } else if (rule.of == Subject::sample) {
      ask_sample(rule, ahead);
    }
  }
  return ahead;
}

}  // namespace driftwarden
