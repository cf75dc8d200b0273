// SPDX-License-Identifier: MIT
#include "report/window_words.hpp"

#include "quantity/number.hpp"
#include "quantity/rounding.hpp"
#include "report/paint.hpp"
#include "report/terminal_text.hpp"

namespace driftwarden {
namespace {

// Zeros behind the point say nothing of figures that come from limits and suppositions.
std::string without_idle_zeros(std::string text) {
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

// Above this, minutes are no sampling time, and their digits say nothing.
constexpr double most_minutes = 1e6;
std::string in_minutes(double minutes, const std::string& text) {
  return minutes > most_minutes ? "over " + shortest(most_minutes) + " min" : text + " min";
}
std::string per_cubic_metre(double concentration) { return shortest(concentration) + " mg/m3"; }
std::string limit_place(const Rule& rule) { return "[" + to_text(rule.place) + "]"; }

std::string volume_and_time(const VolumeEnd& end) {
  std::string text;
  if (!is_missing(end.volume_l)) text = litres(end.volume_l);
  if (!is_missing(end.minutes)) text += (text.empty() ? "" : ", ") + minutes_text(end.minutes);
  return text;
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

// "167 min (333.3 L)", "61 min (more than 120 L)"
std::string short_end(const VolumeEnd& end) {
  const std::string beyond = end.includes_it ? "" : end.is_least ? "more than " : "less than ";
  const std::string volume = is_missing(end.volume_l) ? "" : beyond + litres(end.volume_l);
  if (is_missing(end.minutes)) return volume;
  return planned_minutes(end.whole_minutes()) + (volume.empty() ? "" : " (" + volume + ")");
}

// Both lie between one minute and the next.
std::string between_minutes(const VolumeEnd& least, const VolumeEnd& most) {
  const auto exact = [](const VolumeEnd& end) {
    return (is_missing(end.volume_l) ? "" : litres(end.volume_l) + ", ") +
           in_minutes(end.minutes, rounded_figure(end.minutes, 5));
  };
  return "no whole minute fits: the least, " + exact(least) + ", and the most, " + exact(most) +
         ", lie within one; another flow moves them apart";
}

}  // namespace

std::string rounded_figure(double figure, int digits) {
  return without_idle_zeros(with_significant_digits(figure, digits));
}

std::string litres(double volume) { return volume < 1e-3 ? "less than 0.001 L" : rounded_figure(volume, 4) + " L"; }

std::string minutes_text(double minutes) { return in_minutes(minutes, without_idle_zeros(with_decimals(minutes, 1))); }

std::string planned_minutes(double whole) { return in_minutes(whole, shortest(whole)); }

std::string labelled(std::string_view label, const std::string& text) {
  constexpr std::size_t behind_label = 14;
  return "  " + left(label, behind_label - 2) + wrapped(text, behind_label, working_width).substr(behind_label);
}

std::string rule_words(const Rule& rule) {
  return rule.limit.text + ", else " + std::string(to_text(outcome_of(rule.otherwise))) + " (" + rule.full_name() + ")";
}

std::string end_words(const SampleOutlook& outlook, const VolumeEnd& end) {
  const VolumeAhead& volume = outlook.volume;
  const std::string why = end.from == VolumeEnd::From::mass ? mass_words(volume, end)
                                                            : rule_words(*end.rule) + " " + limit_place(*end.rule);
  const std::string drawn = is_missing(end.reference_l) ? "" : drawn_words(outlook.asked.air);
  return volume_and_time(end) + ": " + why + drawn +
         (end.binds ? "" : ". It stands for the mass on the medium, which is reckoned with: it does not count here");
}

std::string asked_words(const VolumeAsked& asked) {
  std::string text;
  if (!is_missing(asked.target_mg_m3)) text = per_cubic_metre(asked.target_mg_m3) + " has to be found";
  if (!is_missing(asked.expected_mg_m3))
    text += (text.empty() ? "" : ", ") + per_cubic_metre(asked.expected_mg_m3) + " of dust is expected";
  return text;
}

std::string window_words(const VolumeAhead& volume) {
  const VolumeEnd* least = volume.least_end();
  const VolumeEnd* most = volume.most_end();
  if (least == nullptr && most == nullptr) return "nothing says how much air is enough or too much";
  if (volume.is_impossible())
    return "no volume fits: at least " + short_end(*least) + " and at most " + short_end(*most);
  if (!volume.has_whole_minute()) return between_minutes(*least, *most);
  std::string text;
  if (least != nullptr) text = "at least " + short_end(*least);
  if (most != nullptr) text += (text.empty() ? "at most " : ", at most ") + short_end(*most);
  return text;
}

std::string window_text(const VolumeAsked& asked, const VolumeAhead& volume) {
  if (is_missing(asked.target_mg_m3) && is_missing(asked.expected_mg_m3)) return {};
  std::string text = window_words(volume) + ": " + asked_words(asked);
  for (const Rule* rule : volume.not_looked_at) text += "; not seen: " + rule_words(*rule);
  return text;
}

}  // namespace driftwarden
