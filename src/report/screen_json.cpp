// SPDX-License-Identifier: MIT
#include "report/screen_json.hpp"

#include <array>
#include <cmath>

#include "book/stamp_text.hpp"
#include "report/json_text.hpp"
#include "report/result_texts.hpp"
#include "verdict/cautions.hpp"
#include "verdict/decision_risk.hpp"
#include "verdict/message.hpp"
#include "verdict/remarks.hpp"

namespace driftwarden {
namespace {

void moment_member(JsonText& json, std::string_view name, Moment moment, const TimeZone& zone) {
  if (moment == no_moment) {
    json.key(name).null();
  } else {
    json.member(name, local_text(moment, zone));
  }
}

void certificate_member(JsonText& json, std::string_view name, const Book& book, std::int32_t certificate) {
  if (certificate < 0) {
    json.key(name).null();
  } else {
    json.member(name, book.certificates[static_cast<std::size_t>(certificate)].name);
  }
}

void text_member(JsonText& json, std::string_view name, const Book& book, const Column<TextId>& column, Row row) {
  const std::string& text = book.texts.text(field(column, row, TextId{0}));
  if (text.empty()) {
    json.key(name).null();
  } else {
    json.member(name, text);
  }
}

void set_figures(JsonText& json, std::string_view prefix, const ReadingSet* set, bool is_blank) {
  const std::string name(prefix);
  if (set == nullptr && is_blank) {
    json.key(name + "_n").null();
  } else {
    json.member(name + "_n", set == nullptr ? std::size_t{0} : set->flow.n);
  }
  json.member(name + "_l_min", set == nullptr ? missing : set->flow.mean);
  json.member(name + "_sd_l_min", set == nullptr ? missing : set->flow.s);
}

// A temperature as it was written, without the noise of its way to kelvin and back: 15.1 and not 15.100000000000023.
double celsius_figure(double kelvin) {
  constexpr double written_to = 1e6;  // parts of a degree
  constexpr double noise = 1e-12;
  const double celsius = in_celsius(Temperature(kelvin));
  const double written = std::round(celsius * written_to) / written_to;
  return std::abs(written - celsius) < noise ? written : celsius;
}

void set_object(JsonText& json, std::string_view name, const Screening& screening, const SampleResult& result,
                const ReadingSet* set) {
  const Book& book = screening.book();
  json.key(name);
  if (set == nullptr) {
    json.null();
    return;
  }
  json.begin_object();
  json.member("n", set->flow.n).member("voided", set->voided);
  json.member("mean_l_min", set->flow.mean).member("sd_l_min", set->flow.s);
  json.member("rsd_percent", 100 * set->flow.relative_s()).member("range_l_min", set->flow.range());
  json.member("indicated_l_min", set->indicated_l_min);
  json.member("temperature_c", celsius_figure(set->temperature_k)).member("pressure_kpa", set->pressure_kpa);
  moment_member(json, "first", set->rows.first, book.settings.zone);
  moment_member(json, "last", set->rows.last, book.settings.zone);
  json.key("calibrator");
  if (set->rows.calibrator == no_row) {
    json.null();
  } else {
    json.value(book.instruments[set->rows.calibrator].name);
  }
  certificate_member(json, "certificate", book, set->certificate);
  json.key("at").begin_array();
  for (std::uint32_t i = set->rows.begin; i < set->rows.begin + set->rows.count; ++i) {
    json.value(book.place_text(book.files.readings, book.readings.place[result.figures->rows[i]]));
  }
  json.end_array();
  certificate_member(json, "earlier_certificate", book, set->earlier_certificate.value_or(-1));
  json.end_object();
}

void decision_object(JsonText& json, const Book& book, const Decision* decision) {
  if (decision == nullptr) {
    json.null();
    return;
  }
  json.begin_object();
  moment_member(json, "decided", decision->decided, book.settings.zone);
  json.member("by", decision->by).member("rule", decision->rule).member("ruling", to_text(decision->ruling));
  json.member("reason", decision->reason).member("at", book.place_text(book.files.decisions, decision->place));
  json.end_object();
}

void finding_object(JsonText& json, const Screening& screening, const SampleResult& result, const Finding& finding) {
  json.begin_object()
      .member("rule", rule_name(screening, finding))
      .member("outcome", to_text(finding.judgement.outcome));
  if (finding.rule == Finding::faulty_records) {
    json.key("measure").null().key("value").null().key("unit").null().key("limit").null().key("margin").null();
    json.key("probability_beyond").null().key("source").null();
  } else {
    const Rule& rule = screening.rules().rules[finding.rule];
    const Reported figures = reported(rule, finding.judgement);
    json.member("measure", measure_of(rule).name).member("value", figures.value).member("unit", figures.unit);
    json.member("limit", rule.limit.text).member("margin", figures.margin);
    json.member("probability_beyond", finding.probability_beyond).member("source", rule.source);
  }
  json.member("message", message_of(screening, result, finding));
  json.key("at").begin_array();
  for (const Place& place : places_of(screening, result, finding)) json.value(to_text(place));
  json.end_array();
  if (finding.judgement.outcome != Outcome::met) {
    json.key("decision");
    decision_object(json, screening.book(), finding.decision);
  }
  json.end_object();
}

constexpr std::array<std::string_view, budget_figures> budget_names{"drift", "flow", "volume", "volume_reference"};

std::string_view to_text(FlowBetween::From from) {
  constexpr std::array<std::string_view, 3> words{"distance", "earlier uses", "stated"};
  return words[static_cast<std::size_t>(from)];
}

void flow_between_member(JsonText& json, const FlowBetween& between) {
  json.key("flow_between").begin_object().member("from", to_text(between.from));
  json.member("earlier_uses", std::size_t{between.earlier.uses});
  json.member("drift_s_percent", 100 * between.earlier.s).end_object();
}

// Sensitivities are of the figure (drift as a ratio) to the input, both in the units given.
void budget_object(JsonText& json, const Budget& budget) {
  if (budget.lines.empty() && budget.lacks.empty()) {
    json.null();
    return;
  }
  json.begin_object().key("inputs").begin_array();
  for (const BudgetLine& line : budget.lines) {
    json.begin_object().member("source", to_text(line.source)).member("estimate", line.estimate);
    json.member("unit", unit_of(line.source)).member("u", line.u).member("distribution", to_text(line.distribution));
    json.member("dof", line.dof).key("sensitivity").begin_object();
    for (std::size_t y = 0; y < budget_figures; ++y) json.member(budget_names[y], line.sensitivity[y]);
    json.end_object().end_object();
  }
  json.end_array().key("missing").begin_array();
  for (const BudgetLack& lack : budget.lacks) json.value(to_text(lack.source));
  json.end_array().key("figures").begin_object();
  for (std::size_t y = 0; y < budget_figures; ++y) {
    const FigureUncertainty& of = budget.of[y];
    json.key(budget_names[y]).begin_object().member("unit", unit_of(static_cast<BudgetFigure>(y))).member("u", of.u);
    json.member("dof", of.dof)
        .member("coverage_factor", of.coverage_factor)
        .member("expanded", of.expanded)
        .end_object();
  }
  json.end_object();
  flow_between_member(json, budget.flow_between);
  json.end_object();
}

// The last decision about the sample, and how it stands where decisions make it another than the verdict says.
void decision_members(JsonText& json, const Screening& screening, const SampleResult& result) {
  const Book& book = screening.book();
  const auto& decisions = screening.rulings().about(book.samples.name[result.figures->sample]);
  json.key("decision");
  decision_object(json, book, decisions.empty() ? nullptr : decisions.back());
  json.key("by_decision");
  if (result.standing == result.verdict) {
    json.null();
  } else {
    json.value(to_text(result.standing));
  }
}

// How the volume came about, and what was measured with its uncertainty.
void measured_members(JsonText& json, const SampleResult& result) {
  const SampleAssessment& f = *result.figures;
  json.key("volume_is");
  if (is_missing(f.volume_l)) {
    json.null();
  } else {
    json.value(volume_is(f));
  }
  json.key("measured").begin_object().member("flow_l_min", f.measured_flow_l_min());
  json.member("volume_l", f.measured_volume_l);
  json.member("volume_expanded_uncertainty_l", result.budget.about(BudgetFigure::volume).expanded);
  json.member("volume_reference_l", f.measured_volume_reference_l);
  json.member("volume_reference_expanded_uncertainty_l", result.budget.about(BudgetFigure::volume_reference).expanded);
  json.end_object();
}

// How the flow went through the field sets; null without any.
void course_member(JsonText& json, const FlowCourse& course) {
  json.key("course");
  if (course.empty()) {
    json.null();
    return;
  }
  json.begin_object().member("mean_l_min", course.mean_l_min).key("stops").begin_array();
  for (const CourseStop& stop : course.stops) {
    json.begin_object().member("after_min", stop.at_min).member("flow_l_min", stop.flow_l_min);
    json.member("share", stop.share).end_object();
  }
  json.end_array().end_object();
}

// What the flow did to the mass, where the sampler's curve is described: each figure from and to.
void mass_member(JsonText& json, const Screening& screening, const SampleAssessment& f) {
  const std::optional<MassChange> change = screening.basis().mass_change(f);
  if (!change) return;
  const auto range = [&json](std::string_view name, const Bounds& of, double scale = 1) {
    json.key(name).begin_array();
    json.value(scale * of.lower);
    json.value(scale * of.upper);
    json.end_array();
  };
  const AerosolFamily aerosols = aerosols_of(screening.book().settings);
  json.key("mass").begin_object();
  range("mmad_um", aerosols.mmad_um);
  range("gsd", aerosols.gsd);
  range("exponent", change->exponents);
  range("cut_um", change->cut_um);
  range("shift_actual_percent", change->errors.by_actual_volume, 100);
  range("shift_nominal_percent", change->errors.by_nominal_volume, 100);
  json.key("convention");
  if (change->convention) {
    json.value(to_text(*change->convention));
  } else {
    json.null();
  }
  range("bias_at_nominal_percent", change->errors.bias_at_nominal, 100);
  range("bias_actual_percent", change->errors.bias_by_actual_volume, 100);
  range("bias_nominal_percent", change->errors.bias_by_nominal_volume, 100);
  range("bias_percent", change->bias, 100);
  json.end_object();
}

std::string_view to_text(ConditionsFrom from) {
  switch (from) {
    case ConditionsFrom::sample:
      return "sample";
    case ConditionsFrom::sets:
      return "sets";
    case ConditionsFrom::altitude:
      return "altitude";
    case ConditionsFrom::nowhere:
      break;
  }
  return "nowhere";
}

void rules_member(JsonText& json, const RuleSet& rules) {
  json.key("rules").begin_array();
  for (const Rule& rule : rules.rules) {
    json.begin_object().member("id", rule.id).member("pack", rule.pack).member("edition", rule.edition);
    std::string sha256;
    for (const Pack& pack : rules.packs) {
      if (pack.name == rule.pack) sha256 = pack.sha256;
    }
    json.member("sha256", sha256).member("limit", rule.limit.text).member("standing", to_text(rule.standing));
    json.key("overridden");
    if (rule.overridden) {
      json.begin_object().member("limit_before", rule.overridden->limit_before);
      json.member("reason", rule.overridden->reason).member("at", to_text(rule.overridden->place)).end_object();
    } else {
      json.null();
    }
    json.member("after", rule.after).end_object();
  }
  json.end_array();
}

void subjects_member(JsonText& json, const Screening& screening, const std::vector<SubjectResult>& subjects) {
  json.key("subjects").begin_array();
  for (const SubjectResult& subject : subjects) {
    json.begin_object().member("of", to_text(subject.of)).member("name", subject.name);
    json.member("verdict", to_text(subject.verdict)).key("findings").begin_array();
    for (const SubjectFinding& finding : subject.findings) {
      const Rule& rule = screening.rules().rules[finding.rule];
      const Reported figures = reported(rule, finding.judgement);
      json.begin_object().member("rule", rule.full_name()).member("outcome", to_text(finding.judgement.outcome));
      json.member("measure", measure_of(rule).name).member("value", figures.value).member("unit", figures.unit);
      json.member("limit", rule.limit.text).member("margin", figures.margin).member("source", rule.source);
      json.member("message", message_of(screening, finding)).key("n");
      if (finding.rests_on.empty()) {
        json.null();
      } else {
        json.value(finding.n);
      }
      json.member("rests_on", finding.rests_on).end_object();
    }
    json.end_array().end_object();
  }
  json.end_array();
}

}  // namespace

void append_screen_json_head(std::string& out, const Screening& screening, const ScreenHead& head) {
  const Settings& settings = screening.book().settings;
  JsonText json(out);
  json.begin_object()
      .key("tool")
      .begin_object()
      .member("name", "driftwarden")
      .member("version", head.version)
      .end_object();
  json.key("book").begin_object().member("title", settings.title).end_object();
  json.member("as_of", date_text(head.as_of));
  json.key("reference").begin_object().member("temperature_c", celsius_figure(settings.reference.temperature.kelvin));
  json.member("pressure_kpa", settings.reference.pressure.value).end_object();
  json.key("practice").begin_object();
  for (const auto& [key, choice] : screening.rules().practice) json.member(key, choice.word());
  json.end_object();
  json.key("decision_rule").begin_object().member("guard", screening.guard());
  json.member("text", decision_rule_text(screening));
  json.texts("unguarded", unguarded(screening)).end_object();
  rules_member(json, screening.rules());
  out += ",\n\"samples\":[";
}

void append_screen_json(std::string& out, const Screening& screening, const SampleResult& result, bool is_first) {
  const Book& book = screening.book();
  const SampleTable& samples = book.samples;
  const SampleAssessment& f = *result.figures;
  const Row row = f.sample;
  const bool is_blank = f.kind == SampleKind::blank;
  out += is_first ? "\n" : ",\n";
  JsonText json(out);
  json.begin_object().member("sample", samples.name[row]);
  text_member(json, "batch", book, samples.batch, row);
  json.member("verdict", to_text(result.verdict)).key("pump");
  if (samples.pump[row] == no_row) {
    json.null();
  } else {
    json.value(book.instruments[samples.pump[row]].name);
  }
  json.member("minutes", f.minutes);
  set_figures(json, "pre", f.pre_set(), is_blank);
  set_figures(json, "post", f.post_set(), is_blank);
  json.member("drift_percent", 100 * f.drift).member("flow_l_min", f.flow_l_min).member("volume_l", f.volume_l);
  json.member("volume_expanded_uncertainty_l", result.volume_expanded_l())
      .member("volume_reference_l", f.volume_reference_l);
  json.member("kind", to_text(f.kind));
  moment_member(json, "started", samples.started[row], book.settings.zone);
  moment_member(json, "stopped", samples.stopped[row], book.settings.zone);
  text_member(json, "sampler", book, samples.sampler, row);
  text_member(json, "method", book, samples.method, row);
  text_member(json, "analysis", book, samples.analysis, row);
  json.member("nominal_l_min", f.nominal_l_min);
  json.key("conditions").begin_object().member("temperature_c", celsius_figure(f.temperature_k));
  json.member("pressure_kpa", f.pressure_kpa).member("temperature_from", to_text(f.temperature_from));
  json.member("pressure_from", to_text(f.pressure_from)).end_object();
  set_object(json, "pre", screening, result, f.pre_set());
  set_object(json, "post", screening, result, f.post_set());
  json.key("findings").begin_array();
  for (const Finding& finding : result.findings) finding_object(json, screening, result, finding);
  json.end_array().key("near_misses").begin_array();
  for (const Finding& finding : result.near) finding_object(json, screening, result, finding);
  json.end_array().key("budget");
  budget_object(json, result.budget);
  json.texts("remarks", remarks_of(screening, result));
  decision_members(json, screening, result);
  json.member("at", book.place_text(book.files.samples, samples.place[row]));
  measured_members(json, result);
  course_member(json, f.course);
  if (!is_blank) mass_member(json, screening, f);
  results_member(json, screening, result);
  json.end_object();
}

void append_screen_json_tail(std::string& out, const Screening& screening, const Totals& totals,
                             const std::vector<SubjectResult>& subjects) {
  out += "\n],\n";
  std::string rest;
  JsonText json(rest);
  json.begin_object();
  subjects_member(json, screening, subjects);
  json.key("totals").begin_object().member("samples", totals.samples).member("valid", totals.valid);
  json.member("qualified", totals.qualified)
      .member("undecided", totals.undecided)
      .member("void", totals.void_)
      .key("by_decision")
      .begin_object()
      .member("valid", totals.valid_by_decision)
      .member("qualified", totals.qualified_by_decision)
      .member("undecided", totals.undecided_by_decision)
      .end_object()
      .end_object();
  json.key("problems").begin_array();
  for (const Diagnostic& problem : screening.book().problems) {
    const auto [file, sheet] = split_sheet(problem.place.file);
    json.begin_object().member("file", file).member("line", std::size_t{problem.place.line});
    json.member("column", std::size_t{problem.place.column}).member("severity", to_text(problem.severity));
    json.member("id", problem.id).member("message", problem.message).member("hint", problem.hint);
    if (!sheet.empty()) json.member("cell", place_in_workbook(problem.place));
    json.end_object();
  }
  json.end_array().member("cautions", cautions).end_object();
  out += std::string_view(rest).substr(1);  // the brace that opened in the head stands already
  out += '\n';
}

}  // namespace driftwarden
