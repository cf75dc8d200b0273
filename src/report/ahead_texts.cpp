// SPDX-License-Identifier: MIT
#include "report/ahead_texts.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/limit.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/budget_working.hpp"
#include "report/field_sheet.hpp"
#include "report/screen_table.hpp"
#include "report/terminal_text.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t behind_label = 14;

// Zeros behind the point say nothing of figures that come from limits and suppositions.
std::string without_idle_zeros(std::string text) {
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}
std::string rounded(double figure, int digits) { return without_idle_zeros(with_significant_digits(figure, digits)); }
std::string litres(double volume) { return volume < 1e-3 ? "less than 0.001 L" : rounded(volume, 4) + " L"; }
// Above this, minutes are no sampling time, and their digits say nothing.
constexpr double most_minutes = 1e6;
std::string in_minutes(double minutes, const std::string& text) {
  return minutes > most_minutes ? "over " + shortest(most_minutes) + " min" : text + " min";
}
std::string minutes_text(double minutes) { return in_minutes(minutes, without_idle_zeros(with_decimals(minutes, 1))); }
std::string per_cubic_metre(double concentration) { return shortest(concentration) + " mg/m3"; }
std::string rounded_per_cubic_metre(double concentration) { return rounded(concentration, 3) + " mg/m3"; }

double unit_of_third_digit(double figure) {
  double unit = 1;
  while (std::isfinite(figure) && unit * 1000 <= figure) unit *= 10;
  while (unit * 100 > figure) unit /= 10;
  return unit;
}

// To three digits, and on the side of the figure that still helps.
std::string rounded_inwards(double figure, bool upwards) {
  const std::string nearest = rounded(figure, 3);
  const Side side = side_of_limit(number_from(nearest).value_or(figure), figure);
  if (side == Side::on || (side == Side::above) == upwards) return nearest;
  const double step = unit_of_third_digit(figure);
  return rounded(upwards ? figure + step : figure - step, 3);
}
// "4.17 L/min or more"; "more than 4 L/min" where it is just not enough.
std::string from_on(const HelpEnd& end, const std::string& unit) {
  const std::string text = rounded_inwards(end.at, true);
  const bool is_exact = side_of_limit(number_from(text).value_or(missing), end.at) == Side::on;
  return !end.includes_it && is_exact ? "more than " + text + unit : text + unit + " or more";
}
std::string up_to(const HelpEnd& end, const std::string& unit) {
  const std::string text = rounded_inwards(end.at, false);
  const bool is_exact = side_of_limit(number_from(text).value_or(missing), end.at) == Side::on;
  return !end.includes_it && is_exact ? "less than " + text + unit : text + unit + " or less";
}
std::string percent(double ratio, int digits) { return rounded(100 * ratio, digits) + " %"; }

std::string place_text(const Place& place) { return "[" + to_text(place) + "]"; }

std::string line_of(std::string_view label, const std::string& text) {
  return "  " + left(label, behind_label - 2) + wrapped(text, behind_label, working_width).substr(behind_label);
}

std::string volume_and_time(const VolumeEnd& end) {
  std::string text;
  if (!is_missing(end.volume_l)) text = litres(end.volume_l);
  if (!is_missing(end.minutes)) text += (text.empty() ? "" : ", ") + minutes_text(end.minutes);
  return text;
}

std::string rule_words(const Rule& rule) {
  return rule.limit.text + ", else " + std::string(to_text(outcome_of(rule.otherwise))) + " (" + rule.full_name() + ")";
}

// "0.1 mg to be quantified at 0.5 mg/m3: 1000 · 0.1 mg / 0.5 mg/m3"
std::string mass_words(const VolumeAhead& volume, const VolumeEnd& end) {
  const std::string mass = shortest(volume.fact_of(end)->value);
  const std::string at = shortest(end.concentration_mg_m3);
  return mass + " mg " + (end.is_least ? "to be quantified" : "of dust at most on the medium") + ": 1000 · " + mass +
         " mg / " + at + " mg/m3";
}

// ", at reference conditions; as drawn in air of 15 °C and 85 kPa"
std::string drawn_words(const AirAhead& air) {
  return ", at reference conditions; as drawn in air of " +
         without_idle_zeros(with_decimals(air.temperature_k - zero_celsius_in_kelvin, 1)) + " °C and " +
         without_idle_zeros(with_decimals(air.pressure_kpa, 2)) + " kPa";
}

std::string end_words(const SampleOutlook& outlook, const VolumeEnd& end) {
  const VolumeAhead& volume = outlook.volume;
  const std::string why = end.from == VolumeEnd::From::mass ? mass_words(volume, end)
                                                            : rule_words(*end.rule) + " " + place_text(end.rule->place);
  const std::string drawn = is_missing(end.reference_l) ? "" : drawn_words(outlook.asked.air);
  return volume_and_time(end) + ": " + why + drawn +
         (end.binds ? "" : ". It stands for the mass on the medium, which is reckoned with: it does not count here");
}

std::string fact_words(const MassFact& fact, std::string_view name) {
  return std::string(name) + " " + fact.written + ": " + fact.source + " (" + std::string(to_text(fact.standing)) +
         ") " + place_text(fact.place);
}

// "PUMP-09", "NMAM 0600 with nylon-cyclone-10mm at 1.7 L/min"
std::string subject_words(const SampleOutlook& outlook) {
  const SampleAhead& sample = outlook.asked.sample;
  std::string text = sample.name;
  const auto add = [&text](std::string_view before, const std::string& words) {
    if (!words.empty()) text += (text.empty() ? "" : std::string(before)) + words;
  };
  add(", ", sample.method);
  add(", ", sample.analysis);
  add(" with ", sample.sampler);
  if (!is_missing(sample.nominal_l_min)) add(" at ", shortest(sample.nominal_l_min) + " L/min");
  return text.empty() ? "a sample" : text;
}

std::string asked_words(const VolumeAsked& asked) {
  std::string text;
  if (!is_missing(asked.target_mg_m3)) text = per_cubic_metre(asked.target_mg_m3) + " has to be found";
  if (!is_missing(asked.expected_mg_m3))
    text += (text.empty() ? "" : ", ") + per_cubic_metre(asked.expected_mg_m3) + " of dust is expected";
  return text;
}

std::string planned_minutes(double whole) { return in_minutes(whole, shortest(whole)); }

// "167 min (333.3 L)", "61 min (more than 120 L)"
std::string short_end(const VolumeEnd& end) {
  const std::string beyond = end.includes_it ? "" : end.is_least ? "more than " : "less than ";
  const std::string volume = is_missing(end.volume_l) ? "" : beyond + litres(end.volume_l);
  if (is_missing(end.minutes)) return volume;
  return planned_minutes(end.whole_minutes()) + (volume.empty() ? "" : " (" + volume + ")");
}

std::string verdict_words(const VolumeAhead& volume) {
  const VolumeEnd* least = volume.least_end();
  const VolumeEnd* most = volume.most_end();
  if (least == nullptr && most == nullptr) return "nothing says how much air is enough or too much";
  if (volume.is_impossible())
    return "no volume fits: at least " + short_end(*least) + " and at most " + short_end(*most);
  std::string text;
  if (least != nullptr) text = "at least " + short_end(*least);
  if (most != nullptr) text += (text.empty() ? "at most " : ", at most ") + short_end(*most);
  return text;
}

// Why an end that one would expect is not there.
std::vector<std::string> gaps(const SampleOutlook& outlook) {
  std::vector<std::string> texts;
  const VolumeAsked& asked = outlook.asked;
  const MassFacts& facts = outlook.volume.facts;
  const std::string of = asked.sample.method.empty() ? "the sample's method" : asked.sample.method;
  if (!facts.of(MassFactKind::quantification))
    texts.push_back("Neither a pack nor book.toml states what mass " + of + " can quantify: no least volume by mass");
  else if (is_missing(asked.target_mg_m3))
    texts.emplace_back("No target is said: no least volume by mass");
  if (!facts.of(MassFactKind::loading))
    texts.push_back("Neither a pack nor book.toml states how much dust the medium of " + of +
                    " may hold: no most volume by mass");
  else if (is_missing(asked.expected_mg_m3))
    texts.emplace_back(
        "No expected concentration is said: no most volume by mass, and a ceiling of volume counts as it "
        "is stated");
  if (is_missing(outlook.volume.flow_l_min))
    texts.emplace_back(
        "Nobody says at which flow it is meant to run: volumes and times can't be held against each other");
  return texts;
}

// Whether the most is a rule's volume that stands for the mass on the medium, only because nobody says what is
// expected.
bool is_ceiling_as_stated(const SampleOutlook& outlook, const VolumeEnd& most) {
  return most.is_ceiling() && !is_missing(outlook.help.expected_mg_m3) && is_missing(outlook.asked.expected_mg_m3);
}

// Whether all else would leave room for the least volume.
bool would_fit_without_it(const SampleOutlook& outlook) {
  const VolumeEnd* least = outlook.volume.least_end();
  const VolumeEnd* most = outlook.volume.most_end();
  if (least == nullptr || most == nullptr || !is_ceiling_as_stated(outlook, *most)) return false;
  return std::ranges::all_of(outlook.volume.ends, [&](const VolumeEnd& end) {
    return end.is_least || is_ceiling_as_stated(outlook, end) || leaves_room(*least, end);
  });
}

// "4.17 L/min or more", "1.11 L/min or less", "1.5 L/min or more and 2 L/min or less"
std::string helpful_flows(const WindowHelp& help) {
  std::string text;
  if (!is_missing(help.flow_from_l_min.at)) text = from_on(help.flow_from_l_min, " L/min");
  if (!is_missing(help.flow_to_l_min.at)) text += (text.empty() ? "" : " and ") + up_to(help.flow_to_l_min, " L/min");
  return text;
}

std::string help_lines(const SampleOutlook& outlook) {
  const WindowHelp& help = outlook.help;
  const VolumeEnd* most = outlook.volume.most_end();
  std::string out;
  const auto add = [&out](const std::string& text) { out += line_of(out.empty() ? "would help" : "", text); };
  if (would_fit_without_it(outlook))
    add("to say what dust is expected: " + litres(most->volume_l) +
        " stand for the mass on the medium, and in less than " + rounded_per_cubic_metre(help.expected_mg_m3) +
        " the least volume holds no more than it may");
  if (!is_missing(help.target_mg_m3.at))
    add("a target of " + from_on(help.target_mg_m3, " mg/m3") + ", which " + litres(most->volume_l) + " can show");
  if (!is_missing(help.quantification_mg.at))
    add("a laboratory that quantifies " + up_to(help.quantification_mg, " mg"));
  if (const std::string flows = helpful_flows(help); !flows.empty()) add("a sampler that is made for " + flows);
  if (out.empty()) add("neither another target nor another laboratory or flow by itself");
  return out;
}

// What rules ask for that nobody can foretell.
std::string unseen_lines(const VolumeAhead& volume) {
  std::string out;
  for (const Rule* rule : volume.not_looked_at) {
    const bool lacks_air = rule->measure == static_cast<std::size_t>(SampleMeasure::volume_reference);
    out += line_of(out.empty() ? "not seen" : "",
                   std::string(measure_of(*rule).name) + " " + rule_words(*rule) + " " + place_text(rule->place) +
                       (lacks_air ? ": say --temperature and --pressure" : ": it is known only afterwards"));
  }
  return out;
}

std::string air_section(const SampleOutlook& outlook) {
  const VolumeAhead& volume = outlook.volume;
  std::string out = "Air: " + verdict_words(volume) + "\n";
  for (const bool is_least : {true, false}) {
    bool is_first = true;
    for (const VolumeEnd& end : volume.ends) {
      if (end.is_least != is_least) continue;
      out += line_of(is_first ? (is_least ? "least" : "most") : "", end_words(outlook, end));
      is_first = false;
    }
  }
  if (volume.is_impossible()) out += help_lines(outlook);
  out += unseen_lines(volume);
  if (!is_missing(outlook.help.expected_mg_m3) && is_missing(outlook.asked.expected_mg_m3))
    out += line_of("dust", "the least volume overloads the medium from " +
                               rounded_per_cubic_metre(outlook.help.expected_mg_m3) + " on");
  if (outlook.minutes_were_said)
    out += line_of("as planned", minutes_text(outlook.minutes) +
                                     (outlook.is_outside() ? " lie outside" : " lie inside, as far as it is known"));
  for (const std::string& gap : gaps(outlook)) out += line_of("", gap + ".");
  for (const MassFactKind kind : {MassFactKind::detection, MassFactKind::quantification, MassFactKind::loading}) {
    if (const auto& fact = volume.facts.of(kind)) out += line_of("", fact_words(*fact, word_of(kind)) + ".");
  }
  return out + line_of("",
                       "No uncertainty is stated of these ends: the method states none of its masses, and the "
                       "concentrations are suppositions.");
}

std::string blanks_section(const Outlook& outlook) {
  const BlanksAhead& blanks = outlook.blanks;
  if (blanks.samples == 0) return {};
  const std::string of = " for " + counted(blanks.samples, "sample", "samples");
  if (blanks.rules.empty()) return "\nBlanks: no rule in force asks for any" + of + "\n";
  std::string out = "\nBlanks: " + std::to_string(blanks.least) + of + "\n";
  for (const BlanksByRule& by : blanks.rules)
    out += line_of(std::to_string(by.least), rule_words(*by.rule) + " " + place_text(by.rule->place));
  if (blanks.is_capped) out += line_of("", fact_words(*blanks.enough, "enough for any set") + ".");
  return out;
}

// "beyond ±5 %", "below -2 % or above 10 %"
std::string limits_words(const DriftAhead& drift) {
  if (drift.limit_low == -drift.limit_high) return "beyond ±" + percent(drift.limit_high, 3);
  std::string text;
  if (!is_missing(drift.limit_low)) text = "below " + percent(drift.limit_low, 3);
  if (!is_missing(drift.limit_high)) text += (text.empty() ? "above " : " or above ") + percent(drift.limit_high, 3);
  return text;
}

std::string drift_words(const DriftAhead& drift) {
  const std::string uses = counted(drift.earlier.uses, "earlier use", "earlier uses");
  if (is_missing(drift.within)) return "not foretold: " + uses + " of the pump say too little, five are needed";
  std::string text =
      "within ±" + percent(drift.within, 2) + " in 95 % of its uses: " + uses + ", s = " + percent(drift.earlier.s, 2);
  if (drift.rule == nullptr) return text;
  const std::string chance = drift.beyond_limits < 1e-4 ? "less than 0.01 %" : percent(drift.beyond_limits, 2);
  return text + "; " + limits_words(drift) + ", which voids (" + drift.rule->full_name() + "), in " + chance;
}

std::string volume_words(const SampleOutlook& outlook) {
  const Budget& budget = outlook.rehearsed->budget;
  const FigureUncertainty& of = budget.about(BudgetFigure::volume);
  if (is_missing(of.expanded)) return "U not stated: an input that it leans on is missing; see below";
  const double volume = outlook.rehearsed->figures->measured_volume_l;
  std::string text = litres(volume) + (outlook.rehearsed->figures->is_conventional ? " as measured, in " : " in ") +
                     minutes_text(outlook.minutes) + ", with U = " + with_significant_digits(of.expanded, 2) + " L, " +
                     percent(of.expanded / volume, 2) + " (95 %)";
  if (is_missing(outlook.spare_minutes)) return text;
  const VolumeEnd* most = outlook.volume.most_end();
  const bool is_too_long = most != nullptr && outlook.spare_minutes > most->whole_minutes();
  return text + "; " + planned_minutes(outlook.spare_minutes) + " draw the least volume, " +
         litres(outlook.volume.least_volume()->volume_l) + ", with U to spare" +
         (is_too_long ? ", and are more than the most" : "");
}

// At which flow it is rehearsed: the display has steps.
std::string flow_rehearsed(const SampleOutlook& outlook) {
  const std::string made = rounded(outlook.rehearsed->figures->pre_l_min, 4);
  const double meant = outlook.asked.sample.nominal_l_min;
  if (made == rounded(meant, 4)) return "both at the flow that is meant";
  return "both at " + made + " L/min, for no step of the display is nearer to " + shortest(meant) + " L/min";
}

std::string flow_section(const Book& book, const SampleOutlook& outlook) {
  const SampleAhead& sample = outlook.asked.sample;
  if (sample.pump == no_row) return {};
  std::string out = "\nFlow: " + book.instruments[sample.pump].name;
  if (sample.calibrator != no_row) out += " with " + book.instruments[sample.calibrator].name;
  out += "\n";
  for (const std::string& why : outlook.against) out += line_of("mind", why);
  out += line_of("drift", drift_words(outlook.drift));
  if (outlook.rehearsed == nullptr) return out + line_of("volume", "not foretold: " + outlook.why_not);
  out += line_of("volume", volume_words(outlook));
  out += line_of("", "As it would come out with one reading before and one after, " + flow_rehearsed(outlook) +
                         ", in the air that is expected. A drift widens it; more readings narrow it.");
  return out + budget_working(*outlook.rehearsed, book.settings.uncertainty);
}

std::string one_sample(const Book& book, const Outlook& outlook) {
  const SampleOutlook& sample = outlook.samples.front();
  const std::string asked = asked_words(sample.asked);
  return subject_words(sample) + (asked.empty() ? "" : ": " + asked) + "\n\n" + air_section(sample) +
         blanks_section(outlook) + flow_section(book, sample);
}

std::string whole_batch(const Outlook& outlook) {
  std::string out = "batch " + outlook.batch + "\n";
  if (outlook.samples.empty())
    out += outlook.is_of_blanks ? "  it has nothing but blanks, of which no air is planned\n"
                                : "  every sample of it is recorded already\n";
  for (const SampleOutlook& sample : outlook.samples) {
    const std::string asked = asked_words(sample.asked);
    out += subject_words(sample) + (asked.empty() ? "" : ": " + asked) + "\n";
    out += wrapped(verdict_words(sample.volume), 2, working_width);
    if (sample.volume.is_impossible()) out += help_lines(sample);
    out += unseen_lines(sample.volume);
    for (const std::string& gap : gaps(sample)) out += wrapped(gap + ".", 2, working_width);
  }
  return out + blanks_section(outlook);
}

}  // namespace

std::string ahead_table(const Book& book, const Outlook& outlook, Day as_of) {
  return book.settings.title + ", as of " + date_text(as_of) + "\n" +
         (outlook.batch.empty() ? one_sample(book, outlook) : whole_batch(outlook)) + "\n" +
         wrapped(cautions, 0, working_width);
}

std::string window_text(const VolumeAsked& asked, const VolumeAhead& volume) {
  if (is_missing(asked.target_mg_m3) && is_missing(asked.expected_mg_m3)) return {};
  std::string text = verdict_words(volume) + ": " + asked_words(asked);
  for (const Rule* rule : volume.not_looked_at) text += "; not seen: " + rule_words(*rule);
  return text;
}

}  // namespace driftwarden
