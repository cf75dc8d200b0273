// SPDX-License-Identifier: MIT
#include "history/calibrator_cross_check.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <set>
#include <utility>

#include "book/stamp_text.hpp"
#include "history/certificate_series.hpp"
#include "history/service_starts.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

constexpr Moment window_s = days_of_a_cross_check * seconds_a_day;

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return values.empty() ? missing : sum / static_cast<double>(values.size());
}

// From when on a calibrator is what it is: its newest certificate, or what was done to it since.
std::map<Row, Moment> known_since(const Screening& screening, Day as_of) {
  const Book& book = screening.book();
  std::map<Row, Moment> since;
  for (Row row = 0; row < book.instruments.size(); ++row) {
    if (book.instruments[row].kind != InstrumentKind::calibrator) continue;
    Moment& start = since.try_emplace(row, no_moment).first->second;
    if (const auto certificates = certificates_of(book, row, as_of); !certificates.empty())
      start = static_cast<Moment>(certificates.back()->calibrated) * seconds_a_day;
    for (const PhaseStart& service : service_starts(book, row, as_of).by_time) start = std::max(start, service.at);
  }
  return since;
}

// The counted points of a series' last phase.
std::vector<const SeriesPoint*> counted_points(const SeriesHistory* history) {
  std::vector<const SeriesPoint*> counted;
  if (history == nullptr || history->series.phases.empty()) return counted;
  const Phase& phase = history->series.phases.back();
  for (std::size_t i = phase.first; i < phase.first + phase.count; ++i) {
    if (!is_missing(history->series.points[i].counted())) counted.push_back(&history->series.points[i]);
  }
  return counted;
}

void add_pump(const InstrumentHistory& history, CrossReadings& readings) {
  for (const SeriesPoint* point : counted_points(history.find("pre-flow-deviation")))
    readings.checks.push_back({history.instrument, point->calibrator, point->at, point->value});
  for (const SeriesPoint* point : counted_points(history.find("drift")))
    readings.uses.push_back({history.instrument, point->calibrator, point->calibrator_after, point->at, point->value});
}

template <class Reading>
using OfPumps = std::map<Row, std::vector<const Reading*>>;  // in order of time

template <class Reading>
OfPumps<Reading> by_pump(const std::vector<Reading>& readings) {
  OfPumps<Reading> of;
  for (const Reading& reading : readings) of[reading.pump].push_back(&reading);
  for (auto& [pump, own] : of)
    std::stable_sort(own.begin(), own.end(), [](const Reading* a, const Reading* b) { return a->at < b->at; });
  return of;
}

// The nearest checks with another calibrator, one before and one after.
std::vector<const CrossCheck*> neighbours(const std::vector<const CrossCheck*>& own, std::size_t i) {
  const auto is_other = [&](const CrossCheck* point) { return point->calibrator != own[i]->calibrator; };
  const auto here = own.begin() + static_cast<std::ptrdiff_t>(i);
  std::vector<const CrossCheck*> near;
  const auto before = std::find_if(std::make_reverse_iterator(here), own.rend(), is_other);
  if (before != own.rend()) near.push_back(*before);
  const auto after = std::find_if(here, own.end(), is_other);
  if (after != own.end()) near.push_back(*after);
  return near;
}

// The newest checks of one pump with a calibrator: how they lie, and how from their neighbours of others.
struct OnPump {
  std::vector<double> levels;
  std::vector<double> differences;
  std::vector<Row> others;  // with which the neighbours were read
  Moment newest = no_moment;
};

OnPump on_pump(const std::vector<const CrossCheck*>& own, Row calibrator) {
  OnPump on;
  for (std::size_t i = own.size(); i-- > 0 && on.levels.size() < newest_of_a_pump;) {
    if (own[i]->calibrator != calibrator) continue;
    on.newest = std::max(on.newest, own[i]->at);
    on.levels.push_back(own[i]->percent);
    std::vector<double> near;
    for (const CrossCheck* neighbour : neighbours(own, i)) {
      near.push_back(neighbour->percent);
      on.others.push_back(neighbour->calibrator);
    }
    if (!near.empty()) on.differences.push_back(own[i]->percent - mean_of(near));
  }
  return on;
}

// What is known of one calibrator.
struct OfCalibrator {
  std::vector<double> differences;   // of pumps that were read with others, too
  std::vector<double> own_levels;    // of pumps that were not
  std::vector<double> other_levels;  // of pumps that were not read with it
  std::vector<double> allowed;       // to the others, each as often as it was compared with
  Moment newest = no_moment;
};

OfCalibrator by_checks(const OfPumps<CrossCheck>& pumps, Row calibrator, const AllowedErrors& allowed) {
  OfCalibrator of;
  for (const auto& [pump, own] : pumps) {
    const OnPump on = on_pump(own, calibrator);
    of.newest = std::max(of.newest, on.newest);
    for (const Row other : on.others) of.allowed.push_back(allowed.at(other));
    if (!on.differences.empty()) {
      of.differences.push_back(mean_of(on.differences));
    } else if (!on.levels.empty()) {
      of.own_levels.push_back(mean_of(on.levels));
    } else {
      of.other_levels.push_back(mean_of(on_pump(own, own.back()->calibrator).levels));
      of.allowed.push_back(allowed.at(own.back()->calibrator));
    }
  }
  return of;
}

// The mean drift of the newest uses of a pump of which something holds.
template <class IsIt>
double mean_drift(const std::vector<const CrossUse*>& own, IsIt is_it) {
  std::vector<double> drifts;
  for (auto use = own.rbegin(); use != own.rend() && drifts.size() < newest_of_a_pump; ++use) {
    if (is_it(**use)) drifts.push_back((*use)->drift);
  }
  return mean_of(drifts);
}

// By how much a calibrator shows more in the uses of a pump; missing where they can't tell.
double more_in_uses(const std::vector<const CrossUse*>& own, Row calibrator) {
  const double after =
      mean_drift(own, [=](const CrossUse& use) { return use.after == calibrator && use.before != calibrator; });
  const double before =
      mean_drift(own, [=](const CrossUse& use) { return use.before == calibrator && use.after != calibrator; });
  const double alike = mean_drift(own, [](const CrossUse& use) { return use.before == use.after; });
  if (!is_missing(after) && !is_missing(before)) return (after - before) / 2;
  return is_missing(after) ? alike - before : after - alike;
}

OfCalibrator by_uses(const OfPumps<CrossUse>& pumps, Row calibrator, const AllowedErrors& allowed) {
  OfCalibrator of;
  for (const auto& [pump, own] : pumps) {
    const double more = more_in_uses(own, calibrator);
    if (is_missing(more)) continue;
    of.differences.push_back(more);
    for (const CrossUse* use : own) {
      if (use->before == use->after || (use->before != calibrator && use->after != calibrator)) continue;
      of.newest = std::max(of.newest, use->at);
      of.allowed.push_back(allowed.at(use->before == calibrator ? use->after : use->before));
    }
  }
  return of;
}

std::optional<CalibratorQuestion> question_from(const OfCalibrator& of, Row calibrator, double allowed) {
  CalibratorQuestion question;
  question.calibrator = calibrator;
  question.newest = of.newest;
  if (of.differences.size() >= fewest_pumps) {
    question.pumps = of.differences.size();
    question.more = trimmed_mean(of.differences);
  } else if (of.own_levels.size() >= fewest_pumps && of.other_levels.size() >= fewest_pumps) {
    question.pumps = of.own_levels.size();
    question.other_pumps = of.other_levels.size();
    question.more = difference_of(trimmed_mean(of.own_levels), trimmed_mean(of.other_levels));
  }
  question.allowed = allowed + mean_of(of.allowed);
  question.p = p_beyond(question.more, question.allowed);
  return std::isnan(question.p) ? std::nullopt : std::optional(question);
}

// The answers that are rare enough, on the same pumps or on others; the rarest first.
std::vector<CalibratorQuestion> rare_among(const std::vector<CalibratorQuestion>& questions, double chance,
                                           bool are_on_the_same_pumps) {
  std::vector<CalibratorQuestion> rare;
  std::copy_if(questions.begin(), questions.end(), std::back_inserter(rare), [&](const CalibratorQuestion& question) {
    return question.p <= chance && question.is_on_the_same_pumps() == are_on_the_same_pumps;
  });
  std::stable_sort(rare.begin(), rare.end(),
                   [](const CalibratorQuestion& a, const CalibratorQuestion& b) { return a.p < b.p; });
  return rare;
}

CrossReadings without(Row calibrator, CrossReadings readings) {
  std::erase_if(readings.checks, [=](const CrossCheck& check) { return check.calibrator == calibrator; });
  std::erase_if(readings.uses,
                [=](const CrossUse& use) { return use.before == calibrator || use.after == calibrator; });
  return readings;
}

// "VOL-1, VOL-2 or VOL-3"
std::string one_of(const std::vector<Row>& who, const Book& book) {
  std::string text;
  for (std::size_t i = 0; i < who.size(); ++i)
    text += (i == 0 ? "" : i + 1 == who.size() ? " or " : ", ") + book.instruments[who[i]].name;
  return text;
}

std::string how_much_more(const CalibratorQuestion& question) {
  return with_decimals(std::fabs(question.more.mean), 1) + " % " + (question.more.mean < 0 ? "less" : "more");
}

}  // namespace

CrossReadings cross_readings(const Screening& screening, const std::vector<InstrumentHistory>& histories, Day as_of) {
  CrossReadings readings;
  for (const InstrumentHistory& history : histories) {
    if (screening.book().instruments[history.instrument].kind == InstrumentKind::pump) add_pump(history, readings);
  }
  const std::map<Row, Moment> since = known_since(screening, as_of);
  const Moment from = (static_cast<Moment>(as_of) + 1) * seconds_a_day - window_s;
  const auto is_told_by = [&](Row calibrator, Moment at) {
    const auto known = since.find(calibrator);
    return known != since.end() && at >= known->second && at >= from;
  };
  std::erase_if(readings.checks, [&](const CrossCheck& check) { return !is_told_by(check.calibrator, check.at); });
  std::erase_if(readings.uses,
                [&](const CrossUse& use) { return !is_told_by(use.before, use.at) || !is_told_by(use.after, use.at); });
  return readings;
}

AllowedErrors allowed_errors(const Screening& screening, Day as_of) {
  AllowedErrors allowed;
  for (Row row = 0; row < screening.book().instruments.size(); ++row) {
    if (screening.book().instruments[row].kind != InstrumentKind::calibrator) continue;
    const Tolerance stated = tolerance_of(screening, certificates_of(screening.book(), row, as_of));
    allowed[row] = std::isfinite(stated.upper) ? stated.upper : tolerance_unless_stated;
  }
  return allowed;
}

std::vector<CalibratorQuestion> calibrator_questions(const CrossReadings& readings, const AllowedErrors& allowed) {
  const OfPumps<CrossCheck> checks = by_pump(readings.checks);
  const OfPumps<CrossUse> uses = by_pump(readings.uses);
  std::vector<CalibratorQuestion> questions;
  for (const auto& [calibrator, own] : allowed) {
    if (const auto question = question_from(by_checks(checks, calibrator, allowed), calibrator, own))
      questions.push_back(*question);
    if (auto question = question_from(by_uses(uses, calibrator, allowed), calibrator, own)) {
      question->is_within_uses = true;
      questions.push_back(*question);
    }
  }
  return questions;
}

std::vector<CalibratorSuspicion> suspicions_among(const CrossReadings& readings, const AllowedErrors& allowed,
                                                  double chance) {
  std::vector<CalibratorSuspicion> suspicions;
  const std::vector<CalibratorQuestion> questions = calibrator_questions(readings, allowed);
  for (const bool are_on_the_same_pumps : {true, false}) {
    const std::vector<CalibratorQuestion> rare = rare_among(questions, chance, are_on_the_same_pumps);
    if (rare.empty()) continue;
    std::vector<Row> all;
    std::vector<Row> explaining;
    for (const CalibratorQuestion& question : rare) {
      if (std::ranges::find(all, question.calibrator) != all.end()) continue;
      all.push_back(question.calibrator);
      const auto left = calibrator_questions(without(question.calibrator, readings), allowed);
      if (rare_among(left, chance, are_on_the_same_pumps).empty()) explaining.push_back(question.calibrator);
    }
    std::vector<Row> who = explaining.empty() ? all : explaining;
    const auto by = std::ranges::find(rare, who.front(), &CalibratorQuestion::calibrator);
    const bool is_told = are_on_the_same_pumps && explaining.size() == 1;
    suspicions.push_back({*by, std::move(who), is_told});
  }
  return suspicions;
}

std::string said_of(const CalibratorSuspicion& suspicion, const Book& book) {
  const CalibratorQuestion& by = suspicion.by;
  const std::string name = book.instruments[by.calibrator].name;
  const std::string up_to = ", up to " + date_text(local_day(by.newest, book.settings.zone)) + "; " +
                            with_decimals(by.allowed, 1) + " % may lie between two of them, and " + by_chance(by.p);
  if (by.is_on_the_same_pumps())
    return name + " shows " + how_much_more(by) + " than the others on the same " + counted(by.pumps, "pump", "pumps") +
           up_to;
  return "the " + counted(by.pumps, "pump", "pumps") + " read with " + name + " alone show " + how_much_more(by) +
         " than the " + std::to_string(by.other_pumps) + " that were read with others" + up_to;
}

std::string what_to_do(const CalibratorSuspicion& suspicion, const Book& book) {
  if (suspicion.is_told)
    return "Read no pump with it until it has been compared with another or calibrated. The others agree without it.";
  if (!suspicion.by.is_on_the_same_pumps())
    return "Whether the calibrator or the pumps are wrong can't be told, for each pump keeps its calibrator: read "
           "three "
           "of these pumps with another calibrator as well.";
  return "Which is wrong, " + one_of(suspicion.who, book) +
         ", can't be told from what was read: read three pumps with these and with one more calibrator, or have them "
         "calibrated.";
}

}  // namespace driftwarden
