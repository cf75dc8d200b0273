// SPDX-License-Identifier: MIT
#include "history/use_log.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "book/stamp_text.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {
namespace {

using CheckKey = std::tuple<Row, Stage, Row, Moment, Moment>;

// A set of which every reading is void still has a flow to show: the mean of what was struck out.
double struck_out_flow(const Screening& screening, std::span<const Row> rows, std::size_t& n) {
  const ReadingTable& readings = screening.book().readings;
  double sum = 0;
  n = 0;
  for (const Row reading : rows) {
    if (!readings.is_void(reading)) continue;
    const double flow =
        screening.basis().calibrators.correct(reading, screening.basis().practice.correction).actual_l_min;
    if (is_missing(flow)) continue;
    sum += flow;
    ++n;
  }
  return n == 0 ? missing : sum / static_cast<double>(n);
}

Row certificate_row(std::int32_t index) { return index < 0 ? no_row : static_cast<Row>(index); }

PumpCheck check_from(const Screening& screening, std::span<const Row> rows, const ReadingSet& set) {
  PumpCheck check;
  check.stage = set.rows.stage;
  check.calibrator = set.rows.calibrator;
  check.certificate = certificate_row(set.certificate);
  check.first = set.rows.first;
  check.last = set.rows.last;
  check.n = set.flow.n;
  check.flow_l_min = set.flow.mean;
  check.s_l_min = set.flow.s;
  if (set.certificate >= 0) {
    const Certificate& certificate = screening.book().certificates[static_cast<std::size_t>(set.certificate)];
    check.expanded_uncertainty_l_min = check_uncertainty(set.flow, certificate);
  }
  if (set.flow.n == 0 && set.voided > 0) {
    check.flow_l_min = struck_out_flow(screening, rows, check.n);
    check.is_void = true;
  }
  return check;
}

PumpCheck check_from(const Screening& screening, const SampleAssessment& figures, const ReadingSet& set) {
  PumpCheck check = check_from(screening, figures.rows_of(set), set);
  check.pump = screening.book().samples.pump[figures.sample];
  check.sample = figures.sample;
  check.nominal_l_min = figures.nominal_l_min;
  return check;
}

PumpUse use_from(const Screening& screening, const SampleAssessment& figures) {
  const SampleTable& samples = screening.book().samples;
  PumpUse use;
  use.sample = figures.sample;
  use.pump = samples.pump[figures.sample];
  use.started = samples.started[figures.sample];
  use.stopped = samples.stopped[figures.sample];
  use.minutes = figures.minutes;
  use.drift = figures.drift;
  if (figures.pre_set() != nullptr && figures.post_set() != nullptr) {
    use.n = figures.pre_set()->flow.n + figures.post_set()->flow.n;
    use.calibrator = figures.pre_set()->rows.calibrator;
    use.calibrator_after = figures.post_set()->rows.calibrator;
    use.certificate = certificate_row(figures.pre_set()->certificate);
    use.certificate_after = certificate_row(figures.post_set()->certificate);
  }
  use.is_void = field(samples.fault, figures.sample, YesNo::unsaid) == YesNo::yes;
  return use;
}

// Narrows a tolerance to a limit stated in percent.
void narrow(Tolerance& tolerance, const Rule& rule) {
  const Limit& limit = rule.limit;
  if (limit.is_absolute || limit.low >= limit.high) return;
  const double lower = 100 * limit.low;
  const double upper = 100 * limit.high;
  bool is_narrower = false;
  if (std::isfinite(lower) && !(tolerance.lower >= lower)) tolerance.lower = lower, is_narrower = true;
  if (std::isfinite(upper) && !(tolerance.upper <= upper)) tolerance.upper = upper, is_narrower = true;
  if (is_narrower) tolerance.source = rule.full_name();
}

// The rules that were held to a sample, as tolerances of its pump.
PumpTolerances tolerances_from(const Screening& screening, const SampleResult& result) {
  PumpTolerances tolerances;
  Tolerance of_the_sample;
  const auto take = [&](const std::vector<Finding>& findings) {
    for (const Finding& finding : findings) {
      if (finding.rule == Finding::faulty_records) continue;
      const Rule& rule = screening.rules().rules[finding.rule];
      if (rule.of != Subject::sample) continue;
      const auto measure = static_cast<SampleMeasure>(rule.measure);
      if (measure == SampleMeasure::drift) narrow(tolerances.drift, rule);
      if (measure == SampleMeasure::pre_deviation) narrow(tolerances.deviation, rule);
      if (measure == SampleMeasure::flow_deviation) narrow(of_the_sample, rule);
    }
  };
  take(result.findings);
  take(result.kept);
  if (!tolerances.deviation.is_stated()) tolerances.deviation = of_the_sample;
  return tolerances;
}

bool is_later(Moment moment, Day as_of, const TimeZone& zone) {
  return moment == no_moment || local_day(moment, zone) > as_of;
}

// Of each pump, where all checks for its samples have one.
std::vector<double> nominal_flows(const std::vector<PumpCheck>& checks, std::size_t instruments) {
  std::vector<double> flows(instruments, missing);
  std::vector<bool> differ(instruments, false);
  for (const PumpCheck& check : checks) {
    double& flow = flows[check.pump];
    if (!is_missing(flow) && flow != check.nominal_l_min) differ[check.pump] = true;
    if (is_missing(flow)) flow = check.nominal_l_min;
  }
  for (Row row = 0; row < instruments; ++row) {
    if (differ[row]) flows[row] = missing;
  }
  return flows;
}

// The sets on which no sample leans.
std::vector<PumpCheck> bench_checks(const Screening& screening, Day as_of, const std::set<CheckKey>& seen,
                                    const std::vector<double>& nominal_flows) {
  const AssessmentBasis& basis = screening.basis();
  SetReader reader(basis.book, basis.calibrators, basis.practice.correction);
  std::vector<PumpCheck> checks;
  if (basis.pump_sets.empty()) return checks;
  for (Row pump = 0; pump < nominal_flows.size(); ++pump) {
    for (const SetRows& set : basis.pump_sets.of_pump(pump)) {
      if (is_later(set.last, as_of, basis.book.settings.zone)) continue;
      if (seen.contains({pump, set.stage, set.calibrator, set.first, set.last})) continue;
      const std::span<const Row> rows = basis.pump_sets.rows().subspan(set.begin, set.count);
      PumpCheck check = check_from(screening, rows, reader.read(rows, set));
      check.pump = pump;
      check.nominal_l_min = nominal_flows[pump];
      checks.push_back(check);
    }
  }
  return checks;
}

}  // namespace

std::string name_of_sample(const Screening& screening, Row sample) {
  return sample == no_row ? std::string() : std::string(screening.book().samples.name[sample]);
}

double check_uncertainty(const MeanAndSpread& flow, const Certificate& certificate) {
  const CertificatePoint* nearest = nullptr;
  for (const CertificatePoint& point : certificate.points) {
    if (!point.expanded_uncertainty_l_min || !(point.reference_l_min > 0)) continue;
    if (nearest == nullptr ||
        std::fabs(point.reference_l_min - flow.mean) < std::fabs(nearest->reference_l_min - flow.mean))
      nearest = &point;
  }
  if (nearest == nullptr || flow.n < 2) return missing;
  const double k = certificate.k();
  const double of_certificate = flow.mean * *nearest->expanded_uncertainty_l_min / (k * nearest->reference_l_min);
  return 2 * std::sqrt(flow.s * flow.s / static_cast<double>(flow.n) + of_certificate * of_certificate);
}

std::span<const PumpCheck> UseLog::checks_of(Row pump) const {
  return std::ranges::equal_range(checks, pump, {}, &PumpCheck::pump);
}

std::span<const PumpUse> UseLog::uses_of(Row pump) const {
  return std::ranges::equal_range(uses, pump, {}, &PumpUse::pump);
}

UseLog use_log_of(const Screening& screening, Day as_of) {
  const Book& book = screening.book();
  const TimeZone& zone = book.settings.zone;
  UseLog log;
  log.tolerances.resize(book.instruments.size());
  std::vector<Moment> newest(book.instruments.size(), no_moment);
  std::set<CheckKey> seen;
  SampleJudge judge(screening, true);
  for (Row sample = 0; sample < book.samples.size(); ++sample) {
    const Row pump = book.samples.pump[sample];
    if (pump == no_row || book.samples.kind[sample] == SampleKind::blank) continue;
    const SampleResult& result = judge.judge(sample);
    for (const ReadingSet& set : result.figures->sets) {
      if (is_later(set.rows.last, as_of, zone)) continue;
      if (!seen.insert({pump, set.rows.stage, set.rows.calibrator, set.rows.first, set.rows.last}).second) continue;
      log.checks.push_back(check_from(screening, *result.figures, set));
    }
    if (is_later(book.samples.stopped[sample], as_of, zone)) continue;
    log.uses.push_back(use_from(screening, *result.figures));
    if (book.samples.started[sample] < newest[pump]) continue;
    newest[pump] = book.samples.started[sample];
    log.tolerances[pump] = tolerances_from(screening, result);
  }
  for (const PumpCheck& check :
       bench_checks(screening, as_of, seen, nominal_flows(log.checks, book.instruments.size())))
    log.checks.push_back(check);
  std::stable_sort(log.checks.begin(), log.checks.end(), [](const PumpCheck& a, const PumpCheck& b) {
    return std::tie(a.pump, a.first) < std::tie(b.pump, b.first);
  });
  std::stable_sort(log.uses.begin(), log.uses.end(), [](const PumpUse& a, const PumpUse& b) {
    return std::tie(a.pump, a.started) < std::tie(b.pump, b.started);
  });
  return log;
}

}  // namespace driftwarden
