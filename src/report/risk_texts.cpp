// SPDX-License-Identifier: MIT
#include "report/risk_texts.hpp"

#include <array>

#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"
#include "report/json_text.hpp"
#include "report/terminal_text.hpp"
#include "rule/judged_figure.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr std::string_view how_it_is_reckoned =
    "How it is reckoned: global risk by JCGM 106:2012, clause 9. What is true is taken to be spread as the figures of "
    "these samples are, each smoothed into a normal distribution; what measuring adds to the spread of a drift is "
    "taken off. Each is measured with a normal error of its own sample's u. Good and beyond are about the true value. "
    "The figures are means: a year has more or fewer. They hold while pumps, calibrators and work stay as they were; "
    "with few samples near a limit they are rough; an error that a calibrator makes all year long comes in all its "
    "samples or in none; each rule is by itself, and a sample may break several.";

const Rule& rule_of(const ToldRisk& told, const RuleRisk& risk) { return told.screening.rules().rules[risk.rule]; }

// A spread in the unit in which the rule's figures are reported.
Reported in_its_unit(const Rule& rule, double figure, double spread) {
  return reported(rule, {Outcome::met, figure, missing, spread});
}

std::string spread_text(const Rule& rule, double spread) {
  const Reported shown = in_its_unit(rule, missing, spread);
  return with_significant_digits(shown.margin, 2) + (shown.unit.empty() ? "" : " " + std::string(shown.unit));
}

// Samples a year: "1147", "3.1", "0.021".
std::string samples_text(double samples) {
  constexpr double least_told = 0.001;
  if (samples >= 10) return with_decimals(samples, 0);
  return samples > 0 && samples < least_told ? "<" + with_decimals(least_told, 3) : with_significant_digits(samples, 2);
}

std::string trial_text(const YearOfRisk& year, const YearOfRisk& now) {
  const bool is_other_guard = year.guard != now.guard;
  if (year.more > 0) return is_other_guard ? "both" : std::to_string(year.more) + " more readings";
  if (!is_other_guard) return "as it is";
  return year.guard > 0 ? "guard band " + with_decimals(year.guard, 2) + " U" : "no guard band";
}

std::string_view word_of(Otherwise otherwise) { return otherwise == Otherwise::void_ ? "void" : "qualified"; }

void append_line(std::string& out, std::string_view name, const std::array<std::string, 4>& cells) {
  constexpr std::array<std::size_t, 4> widths{9, 17, 15, 17};
  out += "  " + left(name, 20);
  for (std::size_t i = 0; i < cells.size(); ++i) out += right(cells[i], widths[i]);
  out += '\n';
}

void append_years(std::string& out, const ToldRisk& told, const RuleRisk& risk) {
  append_line(
      out, "a year, in the mean",
      {"beyond", "beyond, passed", "good, in band", "good, " + std::string(word_of(rule_of(told, risk).otherwise))});
  for (const YearOfRisk& year : risk.years) {
    append_line(out, trial_text(year, risk.years.front()),
                {samples_text(year.beyond), samples_text(year.passed), samples_text(year.held_up),
                 samples_text(year.not_kept)});
  }
}

std::string rests_on(const Rule& rule, const RuleRisk& risk) {
  std::string text = counted(risk.held, "sample", "samples") + ", " + samples_text(risk.a_year) + " a year";
  if (risk.without_u > 0) text += ", and " + std::to_string(risk.without_u) + " without a known uncertainty, left out";
  if (risk.prior.parts.empty())
    return text + "; it takes " + std::to_string(fewest_for_true_values) + " to tell how true values are spread";
  text += "; " + std::string(measure_of(rule).name) + " spreads by " + spread_text(rule, risk.prior.spread) +
          " about " + figure_text(rule, risk.prior.centre, missing);
  if (risk.prior.measuring > 0) text += ", of which measuring adds " + spread_text(rule, risk.prior.measuring);
  return text + "; smoothed by " + spread_text(rule, risk.prior.smoothing) + "; u is " +
         spread_text(rule, risk.u_least) + " to " + spread_text(rule, risk.u_most) + ", mostly " +
         spread_text(rule, risk.u_median);
}

std::string readings_text(const RiskOfReadings& of) {
  return "By each sample's own reading and no other knowledge: " + std::to_string(of.pass) + " pass, of which " +
         samples_text(of.passed_beyond) + " are beyond; " + std::to_string(of.fail) +
         " do not keep the limit, of which " + samples_text(of.failed_within) + " are good.";
}

void append_rule(std::string& out, const ToldRisk& told, const RuleRisk& risk, Paint paint) {
  const Rule& rule = rule_of(told, risk);
  out += paint.heading(for_terminal(rule.full_name())) + ": " + std::string(measure_of(rule).name) + " " +
         for_terminal(rule.limit.text) + ", else " + std::string(word_of(rule.otherwise)) + "\n";
  out += wrapped(rests_on(rule, risk), 2, table_width);
  if (!risk.years.empty()) append_years(out, told, risk);
  if (risk.held > 0) out += wrapped(readings_text(risk.readings), 2, table_width);
  out += "\n";
}

void year_object(JsonText& json, const YearOfRisk& year) {
  json.begin_object().member("guard", year.guard).member("more_readings", year.more).member("beyond", year.beyond);
  json.member("beyond_and_passed", year.passed).member("good_in_guard_band", year.held_up);
  json.member("good_not_kept", year.not_kept).end_object();
}

void prior_member(JsonText& json, const Rule& rule, const RuleRisk& risk) {
  const auto spread = [&rule](double of) { return in_its_unit(rule, missing, of).margin; };
  json.key("prior").begin_object();
  json.member("centre", in_its_unit(rule, risk.prior.centre, missing).value)
      .member("spread", spread(risk.prior.spread));
  json.member("measuring_adds", spread(risk.prior.measuring)).member("smoothed_by", spread(risk.prior.smoothing));
  json.end_object();
}

void rule_object(JsonText& json, const ToldRisk& told, const RuleRisk& risk) {
  const Rule& rule = rule_of(told, risk);
  const auto spread = [&rule](double of) { return in_its_unit(rule, missing, of).margin; };
  json.begin_object().member("rule", rule.full_name()).member("measure", measure_of(rule).name);
  json.member("limit", rule.limit.text).member("otherwise", word_of(rule.otherwise));
  json.member("unit", in_its_unit(rule, missing, missing).unit).member("samples", risk.held);
  json.member("without_uncertainty", risk.without_u).member("samples_a_year", risk.a_year);
  prior_member(json, rule, risk);
  json.key("u").begin_object().member("least", spread(risk.u_least)).member("median", spread(risk.u_median));
  json.member("most", spread(risk.u_most)).end_object().key("by_readings").begin_object();
  json.member("pass", risk.readings.pass).member("passed_beyond", risk.readings.passed_beyond);
  json.member("fail", risk.readings.fail).member("failed_within", risk.readings.failed_within).end_object();
  json.key("years").begin_array();
  for (const YearOfRisk& year : risk.years) year_object(json, year);
  json.end_array().end_object();
}

std::string days_text(const FleetRisk& risk) {
  if (risk.from == no_day) return "No sample has come.";
  return "Samples of " + date_text(risk.from) + " to " + date_text(risk.to) + "; a year is 365 days at their pace.";
}

}  // namespace

std::string risk_table(const ToldRisk& told, Paint paint) {
  std::string out = for_terminal(told.screening.book().settings.title) + "\n" + days_text(told.risk) + "\n\n";
  for (const RuleRisk& risk : told.risk.rules) append_rule(out, told, risk, paint);
  if (told.risk.rules.empty()) out += "No rule in force judges samples by a reading whose uncertainty is known.\n\n";
  return out + wrapped(how_it_is_reckoned, 0, table_width) + "\n" + wrapped(cautions, 0, table_width);
}

std::string risk_json(const ToldRisk& told) {
  std::string out;
  JsonText json(out);
  json.begin_object().key("tool").begin_object().member("name", "driftwarden");
  json.member("version", told.version).end_object();
  json.key("book").begin_object().member("title", told.screening.book().settings.title).end_object();
  json.member("as_of", date_text(told.as_of)).member("from", date_text(told.risk.from));
  json.member("to", date_text(told.risk.to)).key("rules").begin_array();
  for (const RuleRisk& risk : told.risk.rules) rule_object(json, told, risk);
  json.end_array().member("reckoned", how_it_is_reckoned).member("cautions", cautions).end_object();
  return out + "\n";
}

}  // namespace driftwarden
