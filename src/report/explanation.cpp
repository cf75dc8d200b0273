// SPDX-License-Identifier: MIT
#include "report/explanation.hpp"

#include <algorithm>
#include <cmath>

#include "assessment/drift.hpp"
#include "assessment/sampled_volume.hpp"
#include "book/stamp_text.hpp"
#include "book/whereabouts.hpp"
#include "correction/principle.hpp"
#include "correction/reference_conditions.hpp"
#include "diagnostic/joined.hpp"
#include "quantity/rounding.hpp"
#include "quantity/written.hpp"
#include "report/budget_working.hpp"
#include "report/mass_working.hpp"
#include "report/result_working.hpp"
#include "report/set_working.hpp"
#include "report/terminal_text.hpp"
#include "report/traceability_text.hpp"
#include "verdict/cautions.hpp"
#include "verdict/decision_risk.hpp"
#include "verdict/message.hpp"
#include "verdict/remarks.hpp"

namespace driftwarden {
namespace {

class Explanation {
 public:
  Explanation(const Screening& screening, const SampleResult& result, Paint paint, std::size_t columns)
      : screening_(screening),
        book_(screening.book()),
        result_(result),
        f_(*result.figures),
        paint_(paint),
        columns_(columns),
        width_(std::min(columns, working_width)) {}

  std::string text() {
    head();
    if (f_.kind == SampleKind::sample) {
      for (std::size_t s = 0; s < f_.sets.size(); ++s) set(s);
      traceability();
      drift_step();
      minutes_step();
      flow_step();
      volume_step();
      reference_step();
      measured_step();
      cut_step();
      out_ += budget_working(result_, book_.settings.uncertainty, columns_);
    }
    results();
    remarks();
    rules();
    decisions();
    verdict();
    out_ += "\n" + wrapped(cautions, 0, width_);
    return columns_ == no_terminal ? std::move(out_) : folded(out_, columns_);
  }

 private:
  void heading(std::string_view text) { out_ += "\n" + paint_.heading(text) + "\n"; }
  std::string painted_standing() const { return paint_.verdict(result_.verdict, standing_text(result_)); }
  void line(std::string_view text, std::size_t indent = 2) { out_ += wrapped(for_terminal(text), indent, width_); }
  std::string sample_place() const { return book_.place_text(book_.files.samples, book_.samples.place[f_.sample]); }
  std::string text_of(const Column<TextId>& column) const {
    return book_.texts.text(field(column, f_.sample, TextId{0}));
  }

  void head() {
    out_ += paint_.heading("Sample " + for_terminal(book_.samples.name[f_.sample])) + ": " + painted_standing() +
            "   [" + for_terminal(sample_place()) + "]\n";
    std::string what = std::string(to_text(f_.kind));
    const Row pump = book_.samples.pump[f_.sample];
    if (pump != no_row) what += ", pump " + book_.instruments[pump].name;
    const auto add = [&](std::string_view name, const std::string& text) {
      if (!text.empty()) what += ", " + std::string(name) + " " + text;
    };
    add("batch", text_of(book_.samples.batch));
    add("sampler", text_of(book_.samples.sampler));
    add("method", text_of(book_.samples.method));
    add("analysis", text_of(book_.samples.analysis));
    if (!is_missing(f_.nominal_l_min)) what += ", nominal flow " + flow_text(f_.nominal_l_min) + " L/min";
    line(what);
    add_note();
    add_holder();
    line("Book: " + book_.settings.title);
  }

  void add_note() {
    const std::string note = text_of(book_.samples.note);
    if (!note.empty()) line("Note: " + note);
  }

  // Who had the pump, as far as issues.csv says.
  void add_holder() {
    const Row pump = book_.samples.pump[f_.sample];
    const Moment started = book_.samples.started[f_.sample];
    if (book_.issues.empty() || pump == no_row || started == no_moment) return;
    const Whereabouts where(book_);
    const std::vector<std::string> had_by = where.had_by(pump, local_day(started, book_.settings.zone));
    if (!had_by.empty()) line(book_.instruments[pump].name + " was out with " + joined(had_by, ", or "));
  }

  void set(std::size_t number) {
    const ReadingSet& set = f_.sets[number];
    const bool counts = static_cast<std::int32_t>(number) == f_.pre || static_cast<std::int32_t>(number) == f_.post ||
                        set.rows.stage == Stage::field;
    heading("Flow, " + std::string(to_text(set.rows.stage)) + " set" + (counts ? "" : " (not used)"));
    out_ += set_working(screening_, result_, set, next_step_);
    if (set.rows.calibrator != no_row)
      practice_line(kind_of(book_.instruments[set.rows.calibrator].principle).practice);
    if (static_cast<std::int32_t>(number) == f_.pre && f_.pre_age_min >= 0) {
      line("Read " + with_decimals(f_.pre_age_min, 0) + " min before the sample started.");
    }
    if (static_cast<std::int32_t>(number) == f_.post && f_.post_age_min >= 0) {
      line("Read " + with_decimals(f_.post_age_min, 0) + " min after the sample stopped.");
    }
  }

  void traceability() {
    const std::string chains = traceability_text(screening_, f_, width_);
    if (chains.empty()) return;
    heading("Traceability");
    out_ += chains;
  }

  static Written flow(double l_min) { return {l_min, flow_text(l_min)}; }
  static ConditionsIn<Written> conditions(double kelvin, double kpa) {
    return {{kelvin, with_decimals(kelvin, 2)}, {kpa, with_decimals(kpa, 3)}};
  }

  // Why a figure is not there.
  void cannot(const std::string& why) {
    const bool has_problem = f_.problem != no_problem;
    line(has_problem ? "not worked out: a record that the sample leans on can't be understood, see below"
                     : "can't be worked out: " + why);
  }

  void drift_step() {
    heading("Drift");
    const DriftBase base = screening_.basis().practice.drift_base;
    line("drift = (post - pre) / " + std::string(base == DriftBase::pre    ? "pre"
                                                 : base == DriftBase::post ? "post"
                                                 : base == DriftBase::mean ? "mean of pre and post"
                                                                           : "nominal"));
    if (is_missing(f_.drift)) {
      return cannot(f_.pre < 0 ? "there is no pre set" : f_.post < 0 ? "there is no post set" : "a flow is missing");
    }
    const double from = base_flow(f_.pre_l_min, f_.post_l_min, base, f_.nominal_l_min);
    line("      = " + driftwarden::drift(flow(f_.pre_l_min), flow(f_.post_l_min), flow(from)).text() + " = " +
         with_decimals(100 * f_.drift, 3) + " %");
    practice_line("drift_base");
  }

  void minutes_step() {
    heading("Minutes");
    const Moment from = book_.samples.started[f_.sample];
    const Moment to = book_.samples.stopped[f_.sample];
    if (from == no_moment || to == no_moment) return line("a time is missing");
    line("started " + local_text(from, book_.settings.zone) + ", stopped " + local_text(to, book_.settings.zone) +
         "   [" + sample_place() + "]");
    const double run = minutes_between(from, to);
    const bool has_pause = !is_missing(f_.paused_min) && f_.paused_min > 0;
    if (is_missing(f_.minutes)) {
      cannot("the pauses are longer than the time from start to stop");
    } else if (has_pause) {
      line("minutes = " + shortest(run) + " on the absolute time line - " + shortest(f_.paused_min) +
           " paused = " + shortest(f_.minutes));
    } else {
      line("minutes = " + shortest(run) + " on the absolute time line");
    }
    if (book_.settings.zone.offset_at(from) != book_.settings.zone.offset_at(to)) {
      line("The clocks were changed during the sample; the minutes are those that passed.");
    }
  }

  void practice_line(std::string_view key) {
    if (const std::string text = practice_text(screening_, key); !text.empty()) line(text);
  }

  void flow_step() {
    heading("Flow for the volume");
    const FlowForVolume practice = screening_.basis().practice.flow_for_volume;
    const std::string pre = flow_text(f_.pre_l_min);
    const std::string post = flow_text(f_.post_l_min);
    if (is_missing(f_.flow_l_min)) return cannot("a flow is missing");
    if (follows(screening_.basis().practice.field_sets, f_.course)) return course_step();
    switch (practice) {
      case FlowForVolume::mean:
        line("Q = (pre + post) / 2 = (" + pre + " + " + post + ") / 2 = " + flow_text(f_.flow_l_min) + " L/min");
        break;
      case FlowForVolume::lower:
        line("Q = the lower of " + pre + " and " + post + " = " + flow_text(f_.flow_l_min) + " L/min");
        break;
      case FlowForVolume::pre:
        line("Q = pre = " + pre + " L/min");
        break;
      case FlowForVolume::nominal:
        line("Q = nominal = " + flow_text(f_.flow_l_min) + " L/min");
        break;
    }
    practice_line("flow_for_volume");
  }

  // The mean along the line through all sets.
  void course_step() {
    line("Q = mean along the line through pre, field and post sets: each flow x its share of the time");
    for (const CourseStop& stop : f_.course.stops) {
      std::string sets;
      for (const CourseSet& set : f_.course.sets) {
        if (&stop != &f_.course.stops[set.stop]) continue;
        sets +=
            (sets.empty() ? "" : " and ") + std::string(to_text(f_.sets[static_cast<std::size_t>(set.set)].rows.stage));
      }
      line("after " + with_decimals(stop.at_min, 0) + " min: " + flow_text(stop.flow_l_min) + " x " +
               with_decimals(stop.share, 4) + "   (" + sets + ")",
           4);
    }
    line("  = " + flow_text(f_.flow_l_min) + " L/min");
    practice_line("flow_for_volume");
    practice_line("field_sets");
  }

  void volume_step() {
    heading("Volume, actual");
    if (is_missing(f_.volume_l)) return cannot("a flow or the minutes are missing");
    line("V = Q x minutes = " + flow_text(f_.flow_l_min) + " x " + shortest(f_.minutes) + " = " +
         with_decimals(f_.volume_l, 2) + " L");
  }

  void reference_step() {
    const Conditions reference = book_.settings.reference;
    heading("Volume at reference conditions, " + with_decimals(in_celsius(reference.temperature), 2) + " °C and " +
            with_decimals(reference.pressure.value, 3) + " kPa");
    line("V_ref = V x (P / P_ref) x (T_ref / T), temperatures in kelvin");
    if (is_missing(f_.volume_reference_l)) return cannot("a volume, a temperature or a pressure is missing");
    const Written volume(f_.volume_l, with_decimals(f_.volume_l, 2));
    const ConditionsIn<Written> to = conditions(reference.temperature.kelvin, reference.pressure.value);
    line("      = " + at_reference(volume, conditions(f_.temperature_k, f_.pressure_kpa), to).text() + " = " +
         with_decimals(f_.volume_reference_l, 2) + " L");
    line("T = " + with_decimals(in_celsius(Temperature(f_.temperature_k)), 2) + " °C from " +
         from_text(f_.temperature_from) + "; P = " + with_decimals(f_.pressure_kpa, 3) + " kPa from " +
         from_text(f_.pressure_from));
  }

  // Beside a volume by convention, what was measured.
  void measured_step() {
    if (!f_.is_conventional) return;
    heading("Volume as measured, beside the conventional one above");
    if (is_missing(f_.measured_volume_l)) return cannot("a flow or the minutes are missing");
    line("V = (pre + post) / 2 x minutes = " + flow_text(f_.mean_flow_l_min) + " x " + shortest(f_.minutes) + " = " +
         with_decimals(f_.measured_volume_l, 2) + " L");
    if (!is_missing(f_.measured_volume_reference_l))
      line("at reference conditions " + with_decimals(f_.measured_volume_reference_l, 2) + " L");
    line(
        "The nominal flow is the method's convention, not what was drawn; the uncertainties below are of this volume.");
  }

  // Where the sampler has a curve, or an exponent alone.
  void cut_step() {
    const std::string working = mass_working(screening_, result_, width_);
    if (!working.empty()) {
      heading("Cut size and sampled mass, by a model of the sampler");
      out_ += working;
      return;
    }
    if (is_missing(f_.cut.exponent)) return;
    heading("Cut size");
    line("cut.shift = (mean flow / nominal)^-n - 1, at the mean flow as measured");
    if (is_missing(f_.cut_shift)) return cannot("a flow is missing");
    line("          = (" + flow_text(f_.mean_flow_l_min) + " / " + flow_text(f_.nominal_l_min) + ")^" +
         shortest(-f_.cut.exponent) + " - 1 = " + with_decimals(100 * f_.cut_shift, 2) + " %");
    const auto sampler = screening_.rules().samplers.find(text_of(book_.samples.sampler));
    if (sampler != screening_.rules().samplers.end())
      line("n = " + shortest(f_.cut.exponent) + ": " + sampler->second.cut_source);
    line("A model of the sampler's 50 % cut size, never a correction of a result.");
  }

  void results() {
    if (result_.results.empty()) return;
    heading("Results of the laboratory");
    out_ += result_working(screening_, result_, width_);
  }

  std::string from_text(ConditionsFrom from) const {
    switch (from) {
      case ConditionsFrom::sample:
        return "the sample [" + sample_place() + "]";
      case ConditionsFrom::sets:
        return "its sets (mean)";
      case ConditionsFrom::altitude:
        return "the site's altitude [" + to_text(book_.settings.altitude_place) + "]";
      case ConditionsFrom::nowhere:
        break;
    }
    return "nowhere";
  }

  void remarks() {
    const std::vector<std::string> texts = remarks_of(screening_, result_);
    if (texts.empty()) return;
    heading("Remarks");
    for (const std::string& text : texts) line("- " + text);
  }

  void rules() {
    heading("Rules");
    if (f_.problem != no_problem) {
      const Diagnostic& problem = book_.problems[f_.problem - 1];
      line("No rule is held to this sample, for a record it leans on can't be understood:");
      line(to_text(problem), 4);
      return;
    }
    if (result_.problem != no_problem) {
      line("What the laboratory found can't be understood, and the sample is undecided for it:");
      line(to_text(book_.problems[result_.problem - 1]), 4);
    }
    line("Decision rule: " + decision_rule_text(screening_) + ".");
    for (const Finding& finding : result_.findings) rule_line(finding);
    for (const Finding& finding : result_.kept) rule_line(finding);
    if (result_.findings.empty() && result_.kept.empty()) line("No rule applies to it.");
  }

  void rule_line(const Finding& finding) {
    if (finding.rule == Finding::faulty_records) return;  // told before them
    const Rule& rule = screening_.rules().rules[finding.rule];
    const Outcome outcome = finding.judgement.outcome;
    line("[" + std::string(to_text(outcome)) + "] " + message_of(screening_, result_, finding) + ".");
    line(held_to_text(rule, finding), 6);
    if (finding.decision != nullptr) line("Decided: " + decision_text(book_, *finding.decision), 6);
    if (outcome != Outcome::met && outcome != Outcome::skipped) line("Why: " + rule.reason, 6);
    line("Source: " + rule.source + " (" + known_by_text(rule) + ") [" + to_text(rule.place) + "]", 6);
    if (rule.overridden) {
      line("Changed by this book: it was '" + rule.overridden->limit_before + "', " +
               rule.overridden->otherwise_before + ". Reason: " + rule.overridden->reason + " [" +
               to_text(rule.overridden->place) + "]",
           6);
    }
  }

  // For whoever checks it: the rule by its id, the measure by its name, what was compared with what.
  std::string held_to_text(const Rule& rule, const Finding& finding) const {
    const Judgement& judgement = finding.judgement;
    std::string text = rule.full_name() + ": " + measure_name(screening_, result_, finding);
    if (!is_missing(judgement.figure)) text += " " + figure_text(rule, judgement.figure, judgement.limit);
    text += "; limit: " + rule.limit.text;
    const Reported figures = reported(rule, judgement);
    if (std::isfinite(figures.margin)) {
      text += "; margin " + with_decimals(figures.margin, 2) +
              (figures.unit.empty() ? "" : " " + std::string(figures.unit));
    }
    if (finding.probability_beyond >= 0.0005) text += "; beyond it with a probability of " + chance_text(finding);
    return text;
  }

  void decisions() {
    bool is_first = true;
    for (const Decision& decision : book_.decisions) {
      if (decision.subject != book_.samples.name[f_.sample]) continue;
      if (is_first) heading("Decisions");
      is_first = false;
      line(local_text(decision.decided, book_.settings.zone) + ", " + decision.by + ": " +
           std::string(to_text(decision.ruling)) + " " + decision.rule + ". Reason: " + decision.reason + " [" +
           book_.place_text(book_.files.decisions, decision.place) + "]");
    }
  }

  void verdict() {
    heading("Verdict");
    const std::string verdict = paint_.verdict(result_.verdict, to_text(result_.verdict));
    out_ +=
        wrapped(verdict + ": the worst of its findings (void, undecided, qualified, valid, in this order).", 2, width_);
    if (result_.standing == result_.verdict) return;
    line(
        "By decision it stands as " + std::string(to_text(result_.standing)) +
        ": findings that a responsible person overruled don't count here. They stay findings, and the verdict theirs.");
  }

  const Screening& screening_;
  const Book& book_;
  const SampleResult& result_;
  const SampleAssessment& f_;
  Paint paint_;
  std::size_t columns_;
  std::size_t width_;          // of running text
  std::size_t next_step_ = 0;  // of a reading that counts
  std::string out_;
};

}  // namespace

std::string explanation_of(const Screening& screening, const SampleResult& result, Paint paint, std::size_t columns) {
  return Explanation(screening, result, paint, columns).text();
}

}  // namespace driftwarden
