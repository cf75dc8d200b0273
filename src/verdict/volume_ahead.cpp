// SPDX-License-Identifier: MIT
#include "verdict/volume_ahead.hpp"

#include <cmath>

#include "assessment/mass_window.hpp"
#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

class EndsOf {
 public:
  EndsOf(const VolumeAsked& asked, VolumeAhead& ahead) : asked_(asked), ahead_(ahead) {}

  void add_mass(MassFactKind kind, double concentration_mg_m3, bool is_least) {
    const std::optional<MassFact>& fact = ahead_.facts.of(kind);
    if (!fact || is_missing(concentration_mg_m3)) return;
    VolumeEnd end;
    end.is_least = is_least;
    end.mass = kind;
    end.concentration_mg_m3 = concentration_mg_m3;
    end.volume_l = volume_holding(fact->value, concentration_mg_m3);
    end.minutes = end.volume_l / ahead_.flow_l_min;
    ahead_.ends.push_back(end);
  }

  void add_rule(const Rule& rule, VolumeEnd::From from) {
    if (rule.limit.low > 0 && std::isfinite(rule.limit.low)) add_end(rule, from, rule.limit.low, true);
    if (std::isfinite(rule.limit.high)) add_end(rule, from, rule.limit.high, false);
  }

 private:
  void add_end(const Rule& rule, VolumeEnd::From from, double at, bool is_least) {
    VolumeEnd end;
    end.from = from;
    end.is_least = is_least;
    end.rule = &rule;
    const bool is_volume = from == VolumeEnd::From::volume_rule;
    end.volume_l = is_volume ? at : at * ahead_.flow_l_min;
    end.minutes = is_volume ? at / ahead_.flow_l_min : at;
    end.binds = !(is_volume && !is_least && rule.otherwise == Otherwise::note && knows_loading());
    ahead_.ends.push_back(end);
  }

  bool knows_loading() const { return ahead_.facts.of(MassFactKind::loading) && !is_missing(asked_.expected_mg_m3); }

  const VolumeAsked& asked_;
  VolumeAhead& ahead_;
};

// By the volume; where the flow is not known a volume stands before a time, for it is what holds the mass.
bool is_nearer(const VolumeEnd& end, const VolumeEnd& than) {
  if (is_missing(end.volume_l) != is_missing(than.volume_l)) return is_missing(than.volume_l);
  const bool by_volume = !is_missing(end.volume_l);
  const double a = by_volume ? end.volume_l : end.minutes;
  const double b = by_volume ? than.volume_l : than.minutes;
  return end.is_least ? a > b : a < b;
}

void choose(VolumeAhead& ahead) {
  for (std::size_t i = 0; i < ahead.ends.size(); ++i) {
    const VolumeEnd& end = ahead.ends[i];
    if (!end.binds) continue;
    int& chosen = end.is_least ? ahead.least : ahead.most;
    if (chosen < 0 || is_nearer(end, ahead.ends[static_cast<std::size_t>(chosen)])) chosen = static_cast<int>(i);
  }
}

}  // namespace

double VolumeEnd::whole_minutes() const {
  if (is_missing(minutes)) return missing;
  const double near = std::round(minutes);
  if (side_of_limit(minutes, near) == Side::on) return near;
  return is_least ? std::ceil(minutes) : std::floor(minutes);
}

bool VolumeAhead::is_impossible() const {
  const VolumeEnd* from = least_end();
  const VolumeEnd* to = most_end();
  if (from == nullptr || to == nullptr) return false;
  const bool by_volume = !is_missing(from->volume_l) && !is_missing(to->volume_l);
  const double low = by_volume ? from->volume_l : from->minutes;
  const double high = by_volume ? to->volume_l : to->minutes;
  return !is_missing(low) && !is_missing(high) && side_of_limit(low, high) == Side::above;
}

VolumeAhead volume_ahead(const Screening& screening, const VolumeAsked& asked, const RulesAhead& rules) {
  VolumeAhead ahead;
  ahead.facts = facts_of(screening.rules().facts, asked.sample.method, asked.sample.analysis);
  ahead.flow_l_min = asked.sample.nominal_l_min;
  EndsOf ends(asked, ahead);
  ends.add_mass(MassFactKind::quantification, asked.target_mg_m3, true);
  for (const Rule* rule : rules.volume) ends.add_rule(*rule, VolumeEnd::From::volume_rule);
  for (const Rule* rule : rules.minutes) ends.add_rule(*rule, VolumeEnd::From::time_rule);
  ends.add_mass(MassFactKind::loading, asked.expected_mg_m3, false);
  choose(ahead);
  return ahead;
}

WindowHelp window_help(const VolumeAsked& asked, const VolumeAhead& ahead) {
  WindowHelp help;
  const VolumeEnd* least = ahead.least_end();
  const VolumeEnd* most = ahead.most_end();
  const auto& quantification = ahead.facts.of(MassFactKind::quantification);
  const auto& loading = ahead.facts.of(MassFactKind::loading);
  if (quantification && most != nullptr) help.target_mg_m3 = concentration_held(quantification->value, most->volume_l);
  if (!is_missing(asked.target_mg_m3) && most != nullptr)
    help.quantification_mg = mass_held(asked.target_mg_m3, most->volume_l);
  if (least != nullptr && most != nullptr && most->from == VolumeEnd::From::time_rule)
    help.flow_l_min = least->volume_l / most->minutes;
  if (loading && least != nullptr) help.expected_mg_m3 = concentration_held(loading->value, least->volume_l);
  return help;
}

}  // namespace driftwarden
