// SPDX-License-Identifier: MIT
#include "verdict/outlook.hpp"

#include <algorithm>

#include "quantity/limit.hpp"
#include "verdict/against_use.hpp"

namespace driftwarden {
namespace {

double least_minutes(const VolumeAhead& volume) {
  const VolumeEnd* least = volume.least_end();
  const bool is_between_minutes = !volume.is_impossible() && !volume.has_whole_minute();
  return least == nullptr || is_between_minutes ? missing : least->whole_minutes();
}

void add_against(const Screening& screening, Row instrument, Day on, Day as_of, std::vector<std::string>& against) {
  if (instrument == no_row) return;
  for (const std::string& why : against_use(screening, instrument, on, as_of))
    against.push_back(screening.book().instruments[instrument].name + ": " + why);
}

}  // namespace

bool SampleOutlook::is_outside() const {
  if (!minutes_were_said) return false;
  const VolumeEnd* from = volume.least_end();
  const VolumeEnd* to = volume.most_end();
  const auto is_beyond = [this](const VolumeEnd* end, Side side) {
    if (end == nullptr || is_missing(end->minutes)) return false;
    const Side at = side_of_limit(minutes, end->minutes);
    return at == side || (at == Side::on && !end->includes_it);
  };
  return is_beyond(from, Side::below) || is_beyond(to, Side::above);
}

bool Outlook::is_amiss() const {
  return std::ranges::any_of(samples, [](const SampleOutlook& sample) { return sample.is_amiss(); });
}

SampleOutlook sample_outlook(const Screening& screening, const VolumeAsked& asked, double minutes_said, Moment started,
                             Day as_of) {
  SampleOutlook outlook;
  outlook.asked = asked;
  const SampleAhead& sample = asked.sample;
  const RulesAhead rules = rules_ahead(screening, sample, sample.calibrator);
  outlook.volume = volume_ahead(screening, asked, rules);
  outlook.help = window_help(asked, outlook.volume);
  outlook.minutes_were_said = !is_missing(minutes_said);
  outlook.minutes = outlook.minutes_were_said ? minutes_said : least_minutes(outlook.volume);
  outlook.drift = drift_ahead(screening, sample, rules, started);
  const Day on = sample.day == no_day ? as_of : sample.day;
  add_against(screening, sample.pump, on, as_of, outlook.against);
  add_against(screening, sample.calibrator, on, as_of, outlook.against);
  return outlook;
}

}  // namespace driftwarden
