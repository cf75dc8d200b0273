// SPDX-License-Identifier: MIT
#include "report/ahead_texts.hpp"

#include "book/stamp_text.hpp"
#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/ahead_flow.hpp"
#include "report/ahead_help.hpp"
#include "report/terminal_text.hpp"
#include "report/window_words.hpp"
#include "verdict/cautions.hpp"

namespace driftwarden {
namespace {

std::string place_text(const Place& place) { return "[" + to_text(place) + "]"; }

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

std::string help_lines(const SampleOutlook& outlook) {
  std::string out;
  for (const std::string& words : help_words(outlook)) out += labelled(out.empty() ? "would help" : "", words);
  return out;
}

// What rules ask for that nobody can foretell.
std::string unseen_lines(const VolumeAhead& volume) {
  std::string out;
  for (const Rule* rule : volume.not_looked_at) {
    const bool lacks_air = rule->measure == static_cast<std::size_t>(SampleMeasure::volume_reference);
    out += labelled(out.empty() ? "not seen" : "",
                    std::string(measure_of(*rule).name) + " " + rule_words(*rule) + " " + place_text(rule->place) +
                        (lacks_air ? ": say --temperature and --pressure" : ": it is known only afterwards"));
  }
  return out;
}

std::string air_section(const SampleOutlook& outlook) {
  const VolumeAhead& volume = outlook.volume;
  std::string out = "Air: " + window_words(volume) + "\n";
  for (const bool is_least : {true, false}) {
    bool is_first = true;
    for (const VolumeEnd& end : volume.ends) {
      if (end.is_least != is_least) continue;
      out += labelled(is_first ? (is_least ? "least" : "most") : "", end_words(outlook, end));
      is_first = false;
    }
  }
  if (volume.is_impossible()) out += help_lines(outlook);
  out += unseen_lines(volume);
  if (!is_missing(outlook.help.expected_mg_m3) && is_missing(outlook.asked.expected_mg_m3))
    out += labelled("dust", "the least volume overloads the medium from " + dust_words(outlook) + " on");
  if (outlook.minutes_were_said)
    out += labelled("as planned", minutes_text(outlook.minutes) +
                                      (outlook.is_outside() ? " lie outside" : " lie inside, as far as it is known"));
  for (const std::string& gap : gaps(outlook)) out += labelled("", gap + ".");
  for (const MassFactKind kind : {MassFactKind::detection, MassFactKind::quantification, MassFactKind::loading}) {
    if (const auto& fact = volume.facts.of(kind)) out += labelled("", fact_words(*fact, word_of(kind)) + ".");
  }
  return out + labelled("",
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
    out += labelled(std::to_string(by.least), rule_words(*by.rule) + " " + place_text(by.rule->place));
  if (blanks.is_capped) out += labelled("", fact_words(*blanks.enough, "enough for any set") + ".");
  return out;
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
    out += wrapped(window_words(sample.volume), 2, working_width);
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

}  // namespace driftwarden
