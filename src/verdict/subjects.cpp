// SPDX-License-Identifier: MIT
#include "verdict/subjects.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "correction/certificate_error.hpp"
#include "quantity/rounding.hpp"
#include "statistics/line_fit.hpp"
#include "statistics/mean_and_spread.hpp"
#include "verdict/message.hpp"

namespace driftwarden {
namespace {

constexpr double seconds_a_week = 7.0 * seconds_a_day;

// The facts of one pump or one batch.
struct Group {
  std::string name;
  std::vector<SampleFacts> facts;
};

// A measure of a subject, and how many of what it rests on.
struct Rested {
  MeasureValue value;
  std::size_t n = 0;
  std::string_view one;
  std::string_view many;
  std::string of_which{};  // " of ROT-2/2026-11-11"

  std::string text() const { return one.empty() ? "" : counted(n, std::string(one), std::string(many)) + of_which; }
};

Rested on_samples(MeasureValue value, std::size_t n) { return {value, n, "sample", "samples"}; }

double share(std::size_t part, std::size_t whole) {
  return whole == 0 ? missing : static_cast<double>(part) / static_cast<double>(whole);
}

bool is_blank(const Book& book, const SampleFacts& facts) {
  return book.samples.kind[facts.sample] == SampleKind::blank;
}

// The share of a group's samples, blanks left out, of which something is so.
template <class IsSo>
Rested share_of_samples(const Book& book, const Group& group, IsSo is_so) {
  std::size_t samples = 0;
  std::size_t so = 0;
  for (const SampleFacts& facts : group.facts) {
    if (is_blank(book, facts)) continue;
    ++samples;
    so += is_so(facts) ? 1U : 0U;
  }
  return on_samples(number_value(share(so, samples)), samples);
}

Rested void_share(const Book& book, const Group& group) {
  return share_of_samples(book, group, [](const SampleFacts& facts) { return facts.verdict == Verdict::void_; });
}

Rested complete_share(const Book& book, const Group& group) {
  return share_of_samples(book, group, [](const SampleFacts& facts) { return facts.records_lacking == 0; });
}

std::vector<double> drifts(const Group& group) {
  std::vector<double> told;
  for (const SampleFacts& facts : group.facts) {
    if (!is_missing(facts.drift)) told.push_back(facts.drift);
  }
  return told;
}

// Slope of the pre flow over time, in 7 days, relative to the mean pre flow.
Rested trend(const Book& book, const Group& group) {
  std::vector<double> weeks;
  std::vector<double> flows;
  for (const SampleFacts& facts : group.facts) {
    const Moment started = book.samples.started[facts.sample];
    if (started == no_moment || is_missing(facts.pre_l_min)) continue;
    weeks.push_back(static_cast<double>(started) / seconds_a_week);
    flows.push_back(facts.pre_l_min);
  }
  const std::optional<LineFit> line = fit_line(weeks, flows);
  return on_samples(number_value(line ? line->slope / line->centre_y : missing), flows.size());
}

Rested pump_measure(const Book& book, const Group& group, PumpMeasure measure) {
  const std::vector<double> all = drifts(group);
  switch (measure) {
    case PumpMeasure::drift_mean:
      return on_samples(number_value(mean_and_spread(all).mean), all.size());
    case PumpMeasure::drift_sd:
      return on_samples(number_value(mean_and_spread(all).s), all.size());
    case PumpMeasure::trend:
      return trend(book, group);
    case PumpMeasure::void_share:
      return void_share(book, group);
    case PumpMeasure::count_:
      break;
  }
  return {};
}

Rested batch_measure(const Book& book, const Group& group, BatchMeasure measure) {
  const auto blanks = static_cast<std::size_t>(std::count_if(
      group.facts.begin(), group.facts.end(), [&book](const SampleFacts& facts) { return is_blank(book, facts); }));
  const std::size_t samples = group.facts.size() - blanks;
  switch (measure) {
    case BatchMeasure::blanks:
      return {number_value(static_cast<double>(blanks)), group.facts.size(), "sample or blank", "samples and blanks"};
    case BatchMeasure::blank_share:
      return on_samples(number_value(share(blanks, samples)), samples);
    case BatchMeasure::void_share:
      return void_share(book, group);
    case BatchMeasure::record_complete:
      return complete_share(book, group);
    case BatchMeasure::count_:
      break;
  }
  return {};
}

// The worst of a certificate's errors as found, as a ratio or as the difference in L/min, and how well it is known.
struct AsFound {
  double error = missing;
  double u = missing;
};

double u_of_point(const Certificate& certificate, double as_found_l_min) {
  for (const CertificatePoint& point : certificate.points) {
    if (point.as_found_l_min == as_found_l_min) return standard_uncertainty_l_min(certificate, point);
  }
  return missing;
}

AsFound worst_as_found(const Certificate& certificate, bool is_difference) {
  AsFound worst;
  for (const ErrorPoint& point : as_found_curve(certificate)) {
    const double reference = point.indication_l_min / (1 + point.error);
    const double by = is_difference ? 1 : reference;
    const double error = is_difference ? point.error * reference : point.error;
    if (std::abs(error) <= std::abs(worst.error)) continue;  // never so while none is known
    worst = {error, u_of_point(certificate, point.indication_l_min) / by};
  }
  return worst;
}

KnownTo known_as_found(const Screening& screening, Row calibrator, const Rule& rule, Day as_of) {
  const std::int32_t newest = screening.basis().calibrators.certificate(calibrator, as_of);
  if (measure_of(rule).knowledge != Knowledge::stated || newest < 0) return {};
  const Certificate& certificate = screening.book().certificates[static_cast<std::size_t>(newest)];
  return known_by(worst_as_found(certificate, rule.limit.is_absolute).u, std::numeric_limits<double>::infinity());
}

bool says_as_found(const Certificate& certificate) {
  return std::all_of(certificate.points.begin(), certificate.points.end(),
                     [](const CertificatePoint& point) { return point.as_found_l_min.has_value(); });
}

// How many certificates there were before says nothing of one that is the newest's own.
bool is_of_the_newest(const Rule& rule) {
  return rule.of == Subject::calibrator && (rule.measure == static_cast<std::size_t>(CalibratorMeasure::due) ||
                                            rule.measure == static_cast<std::size_t>(CalibratorMeasure::age));
}

std::size_t certificates_by(const Book& book, Row calibrator, Day as_of) {
  return static_cast<std::size_t>(
      std::count_if(book.certificates.begin(), book.certificates.end(), [&](const Certificate& certificate) {
        return certificate.instrument == calibrator && certificate.calibrated <= as_of;
      }));
}

Rested calibrator_measure(const Screening& screening, Row calibrator, CalibratorMeasure measure, Day as_of) {
  const Book& book = screening.book();
  if (measure == CalibratorMeasure::read_at) {
    const ReadAt said = book.instruments[calibrator].read_at;
    return {said == ReadAt::unknown ? MeasureValue{} : MeasureValue{missing, missing, to_text(said)}, 0, {}, {}};
  }
  const CalibratorKnowledge& known = screening.basis().calibrators;
  const std::int32_t newest = known.certificate(calibrator, as_of);
  const auto on_certificates = [&](MeasureValue value) {
    return Rested{value, certificates_by(book, calibrator, as_of), "certificate", "certificates"};
  };
  if (newest < 0) return on_certificates({});
  const Certificate& certificate = book.certificates[static_cast<std::size_t>(newest)];
  const Day due = known.due(newest);
  const std::size_t points = certificate.points.size();
  switch (measure) {
    case CalibratorMeasure::due:
      return on_certificates(number_value(due == no_day ? missing : minutes_a_day * static_cast<double>(due - as_of)));
    case CalibratorMeasure::age:
      return on_certificates(number_value(minutes_a_day * static_cast<double>(as_of - certificate.calibrated)));
    case CalibratorMeasure::as_found_error:
      return {number_value(worst_as_found(certificate, false).error, worst_as_found(certificate, true).error), points,
              "point", "points", " of " + certificate.name};
    case CalibratorMeasure::record_as_found:
      return {yes_no_value(says_as_found(certificate)), points, "point", "points"};
    case CalibratorMeasure::read_at:
    case CalibratorMeasure::count_:
      break;
  }
  return {};
}

FieldValue instrument_field(const Instrument& instrument, std::string_view name) {
  if (name == "instrument") return {missing, instrument.name};
  if (name == "principle") return {missing, to_text(instrument.principle)};
  if (name == "read-at" && instrument.read_at != ReadAt::unknown) return {missing, to_text(instrument.read_at)};
  return {};
}

// Judges one subject by all rules about its kind. `measure_of_rule` and `field_of` give its values.
template <class MeasureOf, class FieldOf, class KnownOf>
SubjectResult judge_one(const Screening& screening, Subject of, std::string name, MeasureOf measure_of_rule,
                        FieldOf field_of, KnownOf known_of) {
  SubjectResult result{of, std::move(name), Verdict::valid, {}};
  const std::vector<Rule>& rules = screening.rules().rules;
  for (std::uint32_t r = 0; r < rules.size(); ++r) {
    const Rule& rule = rules[r];
    if (rule.of != of) continue;
    const bool applies_here = std::all_of(rule.where.begin(), rule.where.end(), [&](const Condition& condition) {
      return applies(condition, field_of(condition.field)) != Applies::no;
    });
    if (!applies_here) continue;
    const Rested measured = measure_of_rule(rule.measure);
    SubjectFinding finding{
        {r, judge(rule, measured.value)}, measured.n, measured.text(), result.name, measured.value.word};
    weigh(finding, rule, known_of(rule), screening.guard(), false);
    const Outcome outcome = finding.judgement.outcome;
    if (outcome == Outcome::met || outcome == Outcome::skipped) continue;
    result.findings.push_back(finding);
    result.verdict = std::max(result.verdict, verdict_of(outcome));
  }
  return result;
}

// The facts by pump or by batch, in order of first appearance.
template <class KeyOf, class NameOf>
std::vector<Group> grouped(const std::vector<SampleFacts>& all, KeyOf key_of, NameOf name_of) {
  std::vector<Group> groups;
  std::map<std::uint32_t, std::size_t> place_of;
  for (const SampleFacts& facts : all) {
    const auto key = key_of(facts.sample);
    const std::string name = name_of(key);
    if (name.empty()) continue;
    const auto [found, is_new] = place_of.emplace(key, groups.size());
    if (is_new) groups.push_back({name, {}});
    groups[found->second].facts.push_back(facts);
  }
  return groups;
}

void keep(SubjectResult result, std::vector<SubjectResult>& results) {
  if (!result.findings.empty()) results.push_back(std::move(result));
}

}  // namespace

SampleFacts facts_of(const SampleResult& result) {
  return {result.figures->sample, result.verdict, result.figures->drift, result.figures->pre_l_min,
          result.records_lacking};
}

bool judges_subjects(const RuleSet& rules) {
  return std::any_of(rules.rules.begin(), rules.rules.end(), [](const Rule& rule) {
    return rule.of == Subject::calibrator || rule.of == Subject::pump || rule.of == Subject::batch;
  });
}

std::vector<SubjectResult> judge_subjects(const Screening& screening, const std::vector<SampleFacts>& facts,
                                          Day as_of) {
  const Book& book = screening.book();
  std::vector<SubjectResult> results;
  for (Row row = 0; row < book.instruments.size(); ++row) {
    const Instrument& instrument = book.instruments[row];
    if (instrument.kind != InstrumentKind::calibrator) continue;
    keep(
        judge_one(
            screening, Subject::calibrator, instrument.name,
            [&](std::size_t m) { return calibrator_measure(screening, row, static_cast<CalibratorMeasure>(m), as_of); },
            [&](std::string_view name) { return instrument_field(instrument, name); },
            [&](const Rule& rule) { return known_as_found(screening, row, rule, as_of); }),
        results);
  }
  const auto not_known = [](const Rule&) { return KnownTo{}; };
  const auto pump_name = [&book](Row pump) { return pump == no_row ? std::string() : book.instruments[pump].name; };
  for (const Group& group : grouped(
           facts, [&book](Row sample) { return book.samples.pump[sample]; }, pump_name)) {
    keep(judge_one(
             screening, Subject::pump, group.name,
             [&](std::size_t m) { return pump_measure(book, group, static_cast<PumpMeasure>(m)); },
             [&](std::string_view name) {
               if (name == "drifts") return FieldValue{static_cast<double>(drifts(group).size()), {}};
               return FieldValue{missing, group.name};
             },
             not_known),
         results);
  }
  const auto batch_of = [&book](Row sample) { return field(book.samples.batch, sample, TextId{0}); };
  for (const Group& group : grouped(facts, batch_of, [&book](TextId id) { return book.texts.text(id); })) {
    keep(judge_one(
             screening, Subject::batch, group.name,
             [&](std::size_t m) { return batch_measure(book, group, static_cast<BatchMeasure>(m)); },
             [&](std::string_view) {
               return FieldValue{missing, group.name};
             },
             not_known),
         results);
  }
  return results;
}

std::vector<SubjectResult> subjects_of(const Book& book, std::vector<SubjectResult> subjects,
                                       const std::vector<Row>& samples) {
  // A million samples have a few hundred pumps and batches: each is looked up once.
  std::vector<bool> has_pump(book.instruments.size());
  std::vector<bool> has_batch(book.texts.size());
  for (const Row sample : samples) {
    if (const Row pump = book.samples.pump[sample]; pump != no_row) has_pump[pump] = true;
    has_batch[field(book.samples.batch, sample, TextId{0})] = true;
  }
  std::set<std::pair<Subject, std::string>> printed;
  for (Row pump = 0; pump < has_pump.size(); ++pump) {
    if (has_pump[pump]) printed.emplace(Subject::pump, book.instruments[pump].name);
  }
  for (TextId batch = 0; batch < has_batch.size(); ++batch) {
    if (has_batch[batch]) printed.emplace(Subject::batch, book.texts.text(batch));
  }
  std::erase_if(subjects, [&printed](const SubjectResult& subject) {
    return subject.of != Subject::calibrator && !printed.contains({subject.of, subject.name});
  });
  return subjects;
}

std::string message_of(const Screening& screening, const SubjectFinding& finding) {
  const Texts& texts = screening.texts();
  const auto names = [&](std::string_view name) -> std::optional<std::string> {
    return std::string(name == "why" ? texts.lacks.not_said : finding.name);
  };
  const Rule& rule = screening.rules().rules[finding.rule];
  return sentence_of({.texts = texts,
                      .rule = rule,
                      .finding = finding,
                      .guard = screening.guard(),
                      .word = finding.word,
                      .rests_on = is_of_the_newest(rule) ? "" : finding.rests_on,
                      .names = names});
}

}  // namespace driftwarden
