// SPDX-License-Identifier: MIT
#include "verdict/remarks.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "assessment/pump_conditions.hpp"
#include "doubt/replicates.hpp"
#include "quantity/limit.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

void note_conditions(const SampleAssessment& figures, std::vector<std::string>& remarks) {
  if (figures.temperature_from == ConditionsFrom::sets) {
    remarks.emplace_back("The sample gives no temperature; the mean of its sets' is used for the reference volume");
  }
  if (figures.pressure_from == ConditionsFrom::sets) {
    remarks.emplace_back("The sample gives no pressure; the mean of its sets' is used for the reference volume");
  }
  if (figures.pressure_from == ConditionsFrom::altitude) {
    remarks.emplace_back("No pressure was read; the standard atmosphere at the site's altitude, " +
                         with_decimals(figures.pressure_kpa, 2) + " kPa, is used, which the weather moves by 2 to 3 %");
  }
}

std::string than(double by, std::string_view more, std::string_view less, const std::string& size) {
  return size + " " + std::string(by > 0 ? more : less);
}

// A pump that does not compensate drew another flow while sampling than it was checked at.
void note_pump(const Screening& screening, const SampleAssessment& figures, std::vector<std::string>& remarks) {
  const Book& book = screening.book();
  const Row pump = book.samples.pump[figures.sample];
  const std::optional<bool> said = compensates(book, pump);
  const std::optional<PumpConditions> far = far_from_its_check(screening.basis(), figures);
  if (!far || pump == no_row || said.value_or(false)) return;
  const std::string& name = book.instruments[pump].name;
  const std::string kelvin = than(far->warmer_k, "warmer", "colder", with_decimals(std::abs(far->warmer_k), 1) + " K");
  const std::string pressure =
      than(far->denser, "higher", "lower", with_decimals(100 * std::abs(far->denser), 1) + " %");
  const std::string flow = with_decimals(100 * std::abs(far->flow_change), 1) + " % " +
                           (far->flow_change > 0 ? "more" : "less") +
                           " than at that check (square root of temperature over pressure)";
  remarks.push_back(
      "While sampling it was " + kelvin + " and the pressure " + pressure + " than at the " +
      std::string(to_text(far->set->rows.stage)) + " set; " +
      (said ? name + " does not compensate for that: it drew about " + flow + ", and the volume does not allow for it"
            : "nobody says whether " + name + " compensates for that: if not, it drew about " + flow));
}

void note_set(const Screening& screening, const ReadingSet& set, std::vector<std::string>& remarks) {
  const std::string which = std::string(to_text(set.rows.stage)) + " set";
  const std::string calibrator =
      set.rows.calibrator == no_row ? "" : screening.book().instruments[set.rows.calibrator].name;
  if (set.has_altitude_pressure) {
    remarks.push_back("The " + which + " gives no pressure; that of the site's altitude is used");
  }
  if (set.is_outside_certificate) {
    remarks.push_back("The " + which + " lies outside the points of the certificate of " + calibrator +
                      "; the error of the nearest point is used");
  }
  if (set.lacks_certificate) {
    remarks.push_back(calibrator + " had no certificate in force for the " + which +
                      "; its readings are taken as shown");
  }
  if (set.voided > 0) {
    remarks.push_back(counted(set.voided, "void reading", "void readings") + " of the " + which +
                      (set.voided == 1 ? " is" : " are") + " left out of the mean");
  }
}

void note_outlier(const Screening& screening, const SampleAssessment& figures, const ReadingSet& set,
                  std::vector<std::string>& remarks) {
  const Book& book = screening.book();
  std::vector<double> readings;
  for (std::uint32_t i = set.rows.begin; i < set.rows.begin + set.rows.count; ++i) {
    const Row row = figures.rows[i];
    if (book.readings.flags[row] == 0) readings.push_back(book.readings.indicated_l_min[row]);
  }
  const double step =
      set.rows.calibrator == no_row ? 0 : book.instruments[set.rows.calibrator].resolution_l_min.value_or(0);
  const std::optional<OutlierCheck> check = far_out(readings, step);
  if (!check) return;
  remarks.push_back("In the " + std::string(to_text(set.rows.stage)) + " set, " +
                    with_significant_digits(readings[check->index], 5) + " L/min lies far from the others (" +
                    (readings.size() < 7 ? "Dixon's ratio " : "Grubbs' G ") + with_decimals(check->statistic, 3) +
                    ", by chance above " + with_decimals(check->critical, 3) +
                    " in 1 set of 100); it is counted all the same");
}

// The sampler that a reading was taken with, where it says so, should be the one that the sample was drawn with.
void note_other_sampler(const Screening& screening, const SampleAssessment& figures,
                        std::vector<std::string>& remarks) {
  const Book& book = screening.book();
  const TextId own = field(book.samples.sampler, figures.sample, TextId{0});
  if (book.readings.sampler.empty() || own == 0) return;
  std::map<TextId, std::vector<Row>> others;
  for (const Row row : figures.rows) {
    const TextId read_with = book.readings.sampler[row];
    if (read_with != 0 && read_with != own) others[read_with].push_back(row);
  }
  for (const auto& [other, rows] : others) {
    remarks.push_back(counted(rows.size(), "reading was", "readings were") + " taken with the sampler " +
                      in_quotes(book.texts.text(other)) + ", and the sample was drawn with " +
                      in_quotes(book.texts.text(own)) + " [" +
                      book.place_text(book.files.readings, book.readings.place[rows.front()]) + "]");
  }
}

// Where the flow went by way of field sets: those that were not read within the sample, and those that compare.
void note_field_sets(const SampleAssessment& figures, std::vector<std::string>& remarks) {
  if (figures.course.empty()) return;
  std::size_t fields = 0;
  for (const ReadingSet& set : figures.sets) fields += set.rows.stage == Stage::field && set.flow.n > 0 ? 1U : 0U;
  const std::size_t on_course = figures.course.sets.size() - 2;
  if (fields > on_course)
    remarks.push_back(counted(fields - on_course, "field set", "field sets") +
                      " read before the start or after the stop take no part in the course of the flow");
  const std::size_t compared = figures.course.sets.size() - figures.course.stops.size();
  if (compared > 0)
    remarks.push_back(counted(compared, "set", "sets") + " of another calibrator within " +
                      std::to_string(longest_gap_in_a_set_s / 60) +
                      " min of one compare the two: together they count as one");
}

// Before or after sampling, and another one is taken.
bool is_passed_over(const SampleAssessment& figures, const ReadingSet& set) {
  return set.rows.stage != Stage::field && &set != figures.pre_set() && &set != figures.post_set();
}

// A ratio; missing where one of the two has no mean.
double difference_from_used(const SampleAssessment& figures, const ReadingSet& set) {
  const ReadingSet* used = set.rows.stage == Stage::pre ? figures.pre_set() : figures.post_set();
  return used == nullptr || set.flow.n == 0 || !(used->flow.mean > 0) ? missing : set.flow.mean / used->flow.mean - 1;
}

// House: as far as the rule pre-scatter lets the readings of one set lie.
bool lies_apart(const SampleAssessment& figures, const ReadingSet& set) {
  constexpr double apart = 0.02;
  return std::abs(difference_from_used(figures, set)) > apart;
}

std::string not_used_text(const SampleAssessment& figures, const ReadingSet& set) {
  std::string text = "Another " + std::string(to_text(set.rows.stage)) + " set of " +
                     counted(set.rows.count, "reading", "readings") + " is not used";
  if (!lies_apart(figures, set)) return text;
  const double away = difference_from_used(figures, set);
  return text + "; its mean lies " + with_decimals(100 * std::abs(away), 1) + " % " + (away < 0 ? "below" : "above") +
         " that of the one that is";
}

bool has_volume(const SampleAssessment& figures) {
  return figures.kind == SampleKind::sample && !is_missing(figures.volume_l);
}

// One that says something else of the flow than the set that is used is told beside the volume, where there is one.
void note_sets_not_used(const SampleAssessment& figures, bool is_beside_volume, std::vector<std::string>& remarks) {
  for (const ReadingSet& set : figures.sets) {
    const bool belongs_there = has_volume(figures) && lies_apart(figures, set);
    if (is_passed_over(figures, set) && belongs_there == is_beside_volume)
      remarks.push_back(not_used_text(figures, set));
  }
}

void note_choice(const SampleAssessment& figures, std::vector<std::string>& remarks) {
  if (figures.pre_age_min < 0) remarks.emplace_back("The pre set was read after the sample had started");
  if (figures.post_age_min < 0) remarks.emplace_back("The post set was read before the sample had stopped");
  note_field_sets(figures, remarks);
  note_sets_not_used(figures, false, remarks);
}

// "780.5 L, U 5.2 L"
std::string volume_text(double volume_l, const FigureUncertainty& known) {
  const std::string u =
      is_missing(known.expanded) ? "U not stated" : "U " + with_significant_digits(known.expanded, 2) + " L";
  return with_significant_digits(volume_l, 4) + " L, " + u;
}

std::string measured_text(const SampleResult& result) {
  const SampleAssessment& f = *result.figures;
  if (is_missing(f.measured_volume_l)) return "No volume was measured";
  const Budget& budget = result.budget;
  std::string text = "Measured: " + volume_text(f.measured_volume_l, budget.about(BudgetFigure::volume));
  if (!is_missing(f.measured_volume_reference_l)) {
    text += "; at reference conditions " +
            volume_text(f.measured_volume_reference_l, budget.about(BudgetFigure::volume_reference));
  }
  return text;
}

// The volume by the field readings, which lies so far from the one that is stated.
std::string field_line_text(const SampleResult& result, double difference_l) {
  const SampleAssessment& f = *result.figures;
  const bool is_covered = std::abs(difference_l) <= result.budget.about(BudgetFigure::volume).expanded;
  return "For comparison only: a line through the field readings would give " +
         with_significant_digits(f.course.mean_l_min * f.minutes, 4) + " L, " +
         with_significant_digits(std::abs(difference_l), 2) + (difference_l < 0 ? " L less" : " L more") +
         " than the mean of before and after" + (is_covered ? "; that lies within its U" : "");
}

// Words that nobody describes and no rule leans on; where one does, it is a finding.
void note_unknown_words(const Screening& screening, const SampleResult& result, std::vector<std::string>& remarks) {
  const SampleContext context = screening.context(*result.figures, result.budget);
  for (const Selector of : selectors) {
    const TextId word = screening.words().written(of, result.figures->sample);
    if (!screening.words().is_unknown(of, word) || !rules_left_out(context, of).empty()) continue;
    remarks.push_back(unknown_word_text(context, of, screening.texts()));
  }
}

// A decision may outlive what it ruled on: figures and rules change, the file of decisions only grows.
void note_idle_decisions(const Screening& screening, const SampleResult& result, std::vector<std::string>& remarks) {
  const Book& book = screening.book();
  for (const Decision* decision : screening.rulings().about(book.samples.name[result.figures->sample])) {
    const bool is_on_a_finding =
        std::any_of(result.findings.begin(), result.findings.end(), [&](const Finding& finding) {
          return finding.decision != nullptr && finding.decision->rule == decision->rule;
        });
    if (is_on_a_finding) continue;
    remarks.push_back("The decision at " + book.place_text(book.files.decisions, decision->place) + " rules on " +
                      in_quotes(decision->rule) + ", which raises no finding here");
  }
}

bool is_about_the_flow(const Screening& screening, const Finding& finding) {
  return finding.rule != Finding::faulty_records && measure_of(screening.rules().rules[finding.rule]).is_about_the_flow;
}

// Void, and for nothing but how large its flow was or how it moved.
bool is_void_for_its_flow(const Screening& screening, const SampleResult& result) {
  return result.verdict == Verdict::void_ &&
         std::all_of(result.findings.begin(), result.findings.end(), [&](const Finding& finding) {
           return finding.judgement.outcome != Outcome::void_ || is_about_the_flow(screening, finding);
         });
}

bool is_within(const Bounds& range, double limit) {
  return side_of_limit(range.lower, -limit) != Side::below && side_of_limit(range.upper, limit) != Side::above;
}

// "+0.1 %", "-0.4 % to +2.1 %"
std::string error_text(const Bounds& range) {
  return from_to(range, [](double ratio) { return signed_percent(ratio, 1); });
}

// By which volume the concentration is hardly off.
struct SmallMassError {
  bool by_actual = false;
  bool by_nominal = false;

  explicit operator bool() const { return by_actual || by_nominal; }
};

SmallMassError operator&(const SmallMassError& a, const SmallMassError& b) {
  return {a.by_actual && b.by_actual, a.by_nominal && b.by_nominal};
}

// That of a sample is a mean of those at the flows that it had, weighted with the air: small at each, it is small.
SmallMassError small_mass_error(const Screening& screening, const SampleAssessment& figures, double flow_l_min) {
  const std::optional<MassChange> change = screening.basis().mass_change(figures, flow_l_min);
  if (!change || !change->is_known || is_missing(change->errors.by_actual_volume.lower)) return {};
  const double small = screening.book().settings.small_mass_error;
  return {is_within(change->errors.by_actual_volume, small), is_within(change->errors.by_nominal_volume, small)};
}

SmallMassError small_mass_error(const Screening& screening, const SampleAssessment& figures) {
  SmallMassError small = small_mass_error(screening, figures, figures.mean_flow_l_min);
  for (const ReadingSet& set : figures.sets) {
    const bool counts = set.rows.stage == Stage::field || &set == figures.pre_set() || &set == figures.post_set();
    if (counts && set.flow.n > 0) small = small & small_mass_error(screening, figures, set.flow.mean);
  }
  return small;
}

// A flow that is off by more than is allowed may have done next to nothing to the concentration, by one volume or both.
void note_small_mass_error(const Screening& screening, const SampleResult& result, std::vector<std::string>& remarks) {
  if (!is_void_for_its_flow(screening, result)) return;
  const SmallMassError small = small_mass_error(screening, *result.figures);
  if (!small) return;
  const std::string which = small.by_actual && small.by_nominal ? "with either volume"
                            : small.by_actual                   ? "with the actual volume"
                                                                : "with the nominal volume";
  const MassErrorBand errors = screening.basis().mass_change(*result.figures)->errors;
  const std::string limit = shortest(std::round(1e6 * screening.book().settings.small_mass_error) / 1e4) + " %";
  remarks.push_back(
      "The sample stays void, whatever the volume. By the stated curve of its sampler, the concentration would be "
      "wrong by " +
      error_text(errors.by_actual_volume) + " with the actual volume and by " + error_text(errors.by_nominal_volume) +
      " with the nominal volume; " + which + " it is within " + limit + " at each flow that was read");
}

}  // namespace

std::vector<std::string> volume_remarks(const Screening& screening, const SampleResult& result) {
  const SampleAssessment& figures = *result.figures;
  if (is_missing(figures.volume_l)) return {};
  std::vector<std::string> remarks;
  if (figures.is_conventional) {
    remarks.emplace_back("The volume is conventional: nominal flow x minutes");
    remarks.push_back(measured_text(result));
  }
  for (const BudgetLine& line : result.budget.lines) {
    if (line.source == BudgetSource::field_difference)
      remarks.push_back(field_line_text(result, line.estimate * figures.minutes));
  }
  note_sets_not_used(figures, true, remarks);
  note_small_mass_error(screening, result, remarks);
  return remarks;
}

std::vector<std::string> remarks_of(const Screening& screening, const SampleResult& result) {
  std::vector<std::string> remarks;
  const SampleAssessment& figures = *result.figures;
  note_choice(figures, remarks);
  note_other_sampler(screening, figures, remarks);
  for (const ReadingSet& set : figures.sets) {
    note_set(screening, set, remarks);
    note_outlier(screening, figures, set, remarks);
  }
  if (figures.kind == SampleKind::sample) {
    note_conditions(figures, remarks);
    note_pump(screening, figures, remarks);
    for (std::string& text : volume_remarks(screening, result)) remarks.push_back(std::move(text));
  }
  note_unknown_words(screening, result, remarks);
  note_idle_decisions(screening, result, remarks);
  return remarks;
}

}  // namespace driftwarden
