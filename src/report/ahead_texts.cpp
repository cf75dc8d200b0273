// SPDX-License-Identifier: MIT
#include "report/ahead_texts.hpp"

#include <algorithm>
#include <cmath>

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
std::string litres(double volume) { return rounded(volume, 4) + " L"; }
std::string minutes_text(double minutes) { return without_idle_zeros(with_decimals(minutes, 1)) + " min"; }
std::string milligrams(double mass) { return rounded(mass, 3) + " mg"; }
std::string per_cubic_metre(double concentration) { return shortest(concentration) + " mg/m3"; }
std::string rounded_per_cubic_metre(double concentration) { return rounded(concentration, 3) + " mg/m3"; }
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

std::string end_words(const VolumeAhead& volume, const VolumeEnd& end) {
  const std::string why = end.from == VolumeEnd::From::mass ? mass_words(volume, end)
                                                            : rule_words(*end.rule) + " " + place_text(end.rule->place);
  return volume_and_time(end) + ": " + why +
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

std::string planned_minutes(const VolumeEnd& end) { return shortest(end.whole_minutes()) + " min"; }

std::string short_end(const VolumeEnd& end) {
  const std::string volume = is_missing(end.volume_l) ? "" : litres(end.volume_l);
  if (is_missing(end.minutes)) return volume;
  return planned_minutes(end) + (volume.empty() ? "" : " (" + volume + ")");
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
  return most.from == VolumeEnd::From::volume_rule && most.rule->otherwise == Otherwise::note &&
         !is_missing(outlook.help.expected_mg_m3) && is_missing(outlook.asked.expected_mg_m3);
}

// Whether all else would leave room for the least volume.
bool would_fit_without_it(const SampleOutlook& outlook) {
  const VolumeEnd* least = outlook.volume.least_end();
  const VolumeEnd* most = outlook.volume.most_end();
  if (least == nullptr || most == nullptr || !is_ceiling_as_stated(outlook, *most)) return false;
  return std::ranges::all_of(outlook.volume.ends, [&](const VolumeEnd& end) {
    return end.is_least || is_ceiling_as_stated(outlook, end) || !(end.volume_l < least->volume_l);
  });
}

std::string help_lines(const SampleOutlook& outlook) {
  const WindowHelp& help = outlook.help;
  const VolumeEnd* least = outlook.volume.least_end();
  const VolumeEnd* most = outlook.volume.most_end();
  std::string out;
  const auto add = [&out](const std::string& text) { out += line_of(out.empty() ? "would help" : "", text); };
  if (would_fit_without_it(outlook))
    add("to say what dust is expected: " + litres(most->volume_l) +
        " stand for the mass on the medium, and in less than " + rounded_per_cubic_metre(help.expected_mg_m3) +
        " the least volume holds no more than it may");
  if (!is_missing(help.target_mg_m3))
    add("a target of " + rounded_per_cubic_metre(help.target_mg_m3) + " or more, which " + litres(most->volume_l) +
        " can show");
  if (!is_missing(help.quantification_mg)) add("a laboratory that quantifies " + milligrams(help.quantification_mg));
  if (!is_missing(help.flow_l_min))
    add("a sampler that is made for " + with_significant_digits(help.flow_l_min, 3) +
        " L/min or more: " + litres(least->volume_l) + " in " + minutes_text(most->minutes));
  return out;
}

std::string air_section(const SampleOutlook& outlook) {
  const VolumeAhead& volume = outlook.volume;
  std::string out = "Air: " + verdict_words(volume) + "\n";
  for (const bool is_least : {true, false}) {
    bool is_first = true;
    for (const VolumeEnd& end : volume.ends) {
      if (end.is_least != is_least) continue;
      out += line_of(is_first ? (is_least ? "least" : "most") : "", end_words(volume, end));
      is_first = false;
    }
  }
  if (volume.is_impossible()) out += help_lines(outlook);
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
  if (blanks.is_capped)
    out += line_of(
        "", fact_words(*outlook.samples.front().volume.facts.of(MassFactKind::blanks), "enough for any set") + ".");
  return out;
}

std::string drift_words(const DriftAhead& drift) {
  const std::string uses = counted(drift.earlier.uses, "earlier use", "earlier uses");
  if (is_missing(drift.within)) return "not foretold: " + uses + " of the pump say too little, five are needed";
  std::string text =
      "within ±" + percent(drift.within, 2) + " in 95 % of its uses: " + uses + ", s = " + percent(drift.earlier.s, 2);
  if (drift.rule == nullptr) return text;
  const std::string chance = drift.beyond_limit < 1e-4 ? "less than 0.01 %" : percent(drift.beyond_limit, 2);
  return text + "; beyond ±" + percent(drift.limit, 3) + ", which voids (" + drift.rule->full_name() + "), in " +
         chance;
}

// So many minutes draw a volume that is more by a share.
std::string minutes_with(double share, VolumeEnd end) {
  end.minutes *= 1 + share;
  return planned_minutes(end);
}

std::string volume_words(const SampleOutlook& outlook) {
  const Budget& budget = outlook.rehearsed->budget;
  const FigureUncertainty& of = budget.about(BudgetFigure::volume);
  if (is_missing(of.expanded)) return "U not stated: an input that it leans on is missing; see below";
  const double volume = outlook.rehearsed->figures->measured_volume_l;
  std::string text = litres(volume) + (outlook.rehearsed->figures->is_conventional ? " as measured, in " : " in ") +
                     minutes_text(outlook.minutes) + ", with U = " + with_significant_digits(of.expanded, 2) + " L, " +
                     percent(of.expanded / volume, 2) + " (95 %)";
  if (const VolumeEnd* least = outlook.volume.least_end(); least != nullptr && !is_missing(least->volume_l))
    text += "; " + minutes_with(of.expanded / volume, *least) + " draw the least volume with U to spare";
  return text;
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
  out += line_of("",
                 "As it would come out with one reading before and one after, both at the flow that is meant, in the "
                 "air that is expected. A drift widens it; more readings narrow it.");
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
  if (outlook.samples.empty()) out += "  every sample of it is recorded already\n";
  for (const SampleOutlook& sample : outlook.samples) {
    const std::string asked = asked_words(sample.asked);
    out += subject_words(sample) + (asked.empty() ? "" : ": " + asked) + "\n";
    out += wrapped(verdict_words(sample.volume), 2, working_width);
    if (sample.volume.is_impossible()) out += help_lines(sample);
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
  return verdict_words(volume) + ": " + asked_words(asked);
}

}  // namespace driftwarden
