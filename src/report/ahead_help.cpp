// SPDX-License-Identifier: MIT
#include "report/ahead_help.hpp"

#include <algorithm>
#include <cmath>

#include "quantity/limit.hpp"
#include "quantity/number.hpp"
#include "report/window_words.hpp"

namespace driftwarden {
namespace {

double unit_of_third_digit(double figure) {
  double unit = 1;
  while (std::isfinite(figure) && unit * 1000 <= figure) unit *= 10;
  while (unit * 100 > figure) unit /= 10;
  return unit;
}

// To three digits, and on the side of the figure that still helps.
std::string rounded_inwards(double figure, bool upwards) {
  const std::string nearest = rounded_figure(figure, 3);
  const Side side = side_of_limit(number_from(nearest).value_or(figure), figure);
  if (side == Side::on || (side == Side::above) == upwards) return nearest;
  const double step = unit_of_third_digit(figure);
  return rounded_figure(upwards ? figure + step : figure - step, 3);
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

}  // namespace

std::string dust_words(const SampleOutlook& outlook) {
  return rounded_figure(outlook.help.expected_mg_m3, 3) + " mg/m3";
}

std::vector<std::string> help_words(const SampleOutlook& outlook) {
  const WindowHelp& help = outlook.help;
  const VolumeEnd* most = outlook.volume.most_end();
  std::vector<std::string> words;
  const auto add = [&words](const std::string& text) { words.push_back(text); };
  if (would_fit_without_it(outlook))
    add("to say what dust is expected: " + litres(most->volume_l) +
        " stand for the mass on the medium, and in less than " + dust_words(outlook) +
        " the least volume holds no more than it may");
  if (!is_missing(help.target_mg_m3.at))
    add("a target of " + from_on(help.target_mg_m3, " mg/m3") + ", which " + litres(most->volume_l) + " can show");
  if (!is_missing(help.quantification_mg.at))
    add("a laboratory that quantifies " + up_to(help.quantification_mg, " mg"));
  if (const std::string flows = helpful_flows(help); !flows.empty()) add("a sampler that is made for " + flows);
  if (words.empty()) add("neither another target nor another laboratory or flow by itself");
  return words;
}

}  // namespace driftwarden
