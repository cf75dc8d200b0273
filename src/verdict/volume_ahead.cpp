// SPDX-License-Identifier: MIT
#include "verdict/volume_ahead.hpp"

#include <cmath>

#include "assessment/mass_window.hpp"
#include "correction/reference_conditions.hpp"
#include "quantity/limit.hpp"

namespace driftwarden {
namespace {

class EndsOf {
 public:
  EndsOf(const VolumeAsked& asked, const Conditions& reference, VolumeAhead& ahead)
      : asked_(asked), reference_(reference), ahead_(ahead) {}

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
    end.includes_it = includes_its_ends(rule.limit.form);
    end.rule = &rule;
    if (from == VolumeEnd::From::reference_rule) end.reference_l = at;
    end.volume_l = end.is_time() ? at * ahead_.flow_l_min : at * as_drawn(from);
    end.minutes = end.is_time() ? at : end.volume_l / ahead_.flow_l_min;
    end.binds = !(end.is_ceiling() && knows_loading());
    ahead_.ends.push_back(end);
  }

  // What a litre that a rule speaks of is of the air that is drawn.
  double as_drawn(VolumeEnd::From from) const {
    if (from != VolumeEnd::From::reference_rule) return 1;
    const Conditions there{Temperature(asked_.air.temperature_k), Pressure(asked_.air.pressure_kpa)};
    return at_reference(1, reference_, there);
  }

  bool knows_loading() const { return ahead_.facts.of(MassFactKind::loading) && !is_missing(asked_.expected_mg_m3); }

  const VolumeAsked& asked_;
  const Conditions& reference_;
  VolumeAhead& ahead_;
};

bool knows_conditions(const AirAhead& air) { return !is_missing(air.temperature_k) && !is_missing(air.pressure_kpa); }

// By the volume; where the flow is not known a volume stands before a time, for it is what holds the mass. Of two that
// are one, that which excludes it.
bool is_nearer(const VolumeEnd& end, const VolumeEnd& than) {
  if (is_missing(end.volume_l) != is_missing(than.volume_l)) return is_missing(than.volume_l);
  const bool by_volume = !is_missing(end.volume_l);
  const Side side = by_volume ? side_of_limit(end.volume_l, than.volume_l) : side_of_limit(end.minutes, than.minutes);
  if (side == Side::on) return than.includes_it && !end.includes_it;
  return (side == Side::above) == end.is_least;
}

// The nearest of the ends that bind, of one side and of one sort; nullptr: none.
template <class IsOfTheSort>
const VolumeEnd* nearest(const VolumeAhead& ahead, bool is_least, IsOfTheSort is_of_the_sort) {
  const VolumeEnd* chosen = nullptr;
  for (const VolumeEnd& end : ahead.ends) {
    if (!end.binds || end.is_least != is_least || !is_of_the_sort(end)) continue;
    if (chosen == nullptr || is_nearer(end, *chosen)) chosen = &end;
  }
  return chosen;
}

void choose(VolumeAhead& ahead) {
  const auto any = [](const VolumeEnd&) { return true; };
  const auto index = [&ahead](const VolumeEnd* end) {
    return end == nullptr ? -1 : static_cast<int>(end - ahead.ends.data());
  };
  ahead.least = index(nearest(ahead, true, any));
  ahead.most = index(nearest(ahead, false, any));
}

bool leave_room(const VolumeEnd* least, const VolumeEnd* most) {
  return least == nullptr || most == nullptr || leaves_room(*least, *most);
}

bool include_both(const VolumeEnd& one, const VolumeEnd& other) { return one.includes_it && other.includes_it; }

// Between which flows the volumes that are asked for are drawn in the times that are.
void help_by_flow(const VolumeAhead& ahead, WindowHelp& help) {
  const auto is_time = [](const VolumeEnd& end) { return end.is_time(); };
  const auto is_volume = [](const VolumeEnd& end) { return !end.is_time(); };
  const VolumeEnd* least_volume = nearest(ahead, true, is_volume);
  const VolumeEnd* most_volume = nearest(ahead, false, is_volume);
  const VolumeEnd* least_time = nearest(ahead, true, is_time);
  const VolumeEnd* most_time = nearest(ahead, false, is_time);
  if (!leave_room(least_volume, most_volume) || !leave_room(least_time, most_time)) return;
  if (least_volume != nullptr && most_time != nullptr && most_time->minutes > 0)
    help.flow_from_l_min = {least_volume->volume_l / most_time->minutes, include_both(*least_volume, *most_time)};
  if (most_volume != nullptr && least_time != nullptr)
    help.flow_to_l_min = {most_volume->volume_l / least_time->minutes, include_both(*most_volume, *least_time)};
}

// By the mass that has to be quantified, where nothing but it keeps the least from the most.
void help_by_mass(const VolumeAsked& asked, const VolumeAhead& ahead, WindowHelp& help) {
  const VolumeEnd* most = ahead.most_end();
  const VolumeEnd* rest = nearest(ahead, true, [](const VolumeEnd& end) { return end.from != VolumeEnd::From::mass; });
  if (most == nullptr || !leave_room(rest, most)) return;
  if (const auto& quantification = ahead.facts.of(MassFactKind::quantification))
    help.target_mg_m3 = {concentration_held(quantification->value, most->volume_l), most->includes_it};
  if (!is_missing(asked.target_mg_m3))
    help.quantification_mg = {mass_held(asked.target_mg_m3, most->volume_l), most->includes_it};
}

}  // namespace

double VolumeEnd::whole_minutes() const {
  if (is_missing(minutes)) return missing;
  const double near = std::round(minutes);
  if (side_of_limit(minutes, near) == Side::on) return includes_it ? near : near + (is_least ? 1 : -1);
  return is_least ? std::ceil(minutes) : std::floor(minutes);
}

bool leaves_room(const VolumeEnd& least, const VolumeEnd& most) {
  const bool by_volume = !is_missing(least.volume_l) && !is_missing(most.volume_l);
  const double low = by_volume ? least.volume_l : least.minutes;
  const double high = by_volume ? most.volume_l : most.minutes;
  if (is_missing(low) || is_missing(high)) return true;
  const Side side = side_of_limit(low, high);
  return side == Side::below || (side == Side::on && include_both(least, most));
}

bool VolumeAhead::is_impossible() const { return !leave_room(least_end(), most_end()); }

bool VolumeAhead::has_whole_minute() const {
  const VolumeEnd* from = least_end();
  const VolumeEnd* to = most_end();
  return from == nullptr || to == nullptr || !(from->whole_minutes() > to->whole_minutes());
}

const VolumeEnd* VolumeAhead::least_volume() const {
  return nearest(*this, true, [](const VolumeEnd& end) { return !end.is_time(); });
}

VolumeAhead volume_ahead(const Screening& screening, const VolumeAsked& asked, const RulesAhead& rules) {
  VolumeAhead ahead;
  ahead.facts = facts_of(screening.rules().facts, asked.sample.method, asked.sample.analysis);
  ahead.flow_l_min = asked.sample.nominal_l_min;
  ahead.not_looked_at = rules.not_foretold;
  EndsOf ends(asked, screening.book().settings.reference, ahead);
  ends.add_mass(MassFactKind::quantification, asked.target_mg_m3, true);
  for (const Rule* rule : rules.volume) ends.add_rule(*rule, VolumeEnd::From::volume_rule);
  for (const Rule* rule : rules.volume_reference) {
    if (knows_conditions(asked.air))
      ends.add_rule(*rule, VolumeEnd::From::reference_rule);
    else
      ahead.not_looked_at.push_back(rule);
  }
  for (const Rule* rule : rules.minutes) ends.add_rule(*rule, VolumeEnd::From::time_rule);
  ends.add_mass(MassFactKind::loading, asked.expected_mg_m3, false);
  choose(ahead);
  return ahead;
}

WindowHelp window_help(const VolumeAsked& asked, const VolumeAhead& ahead) {
  WindowHelp help;
  help_by_mass(asked, ahead, help);
  help_by_flow(ahead, help);
  const VolumeEnd* least = ahead.least_end();
  const auto& loading = ahead.facts.of(MassFactKind::loading);
  if (loading && least != nullptr) help.expected_mg_m3 = concentration_held(loading->value, least->volume_l);
  return help;
}

}  // namespace driftwarden
