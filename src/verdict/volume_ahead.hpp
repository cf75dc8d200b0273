// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "verdict/air_ahead.hpp"
#include "verdict/rules_ahead.hpp"

namespace driftwarden {

// What is asked for of a sample that is still to be taken; a missing concentration is NaN.
struct VolumeAsked {
  SampleAhead sample;
  double target_mg_m3 = missing;    // that has to be found, of what is analysed
  double expected_mg_m3 = missing;  // of all dust that the medium collects
  AirAhead air = {};                // in which it is taken
};

// One thing that says how much air at least, or at most.
struct VolumeEnd {
  enum class From : std::uint8_t { mass, volume_rule, reference_rule, time_rule };
  From from = From::mass;
  bool is_least = false;
  bool binds = true;                                 // else only told: what it stands for is reckoned with already
  bool includes_it = true;                           // what lies on it keeps it
  double volume_l = missing;                         // by the flow where it is a time; missing without one
  double minutes = missing;                          // by the flow where it is a volume
  double reference_l = missing;                      // of a rule on the volume at reference conditions: as it is stated
  double concentration_mg_m3 = missing;              // of a mass: at which it is held
  MassFactKind mass = MassFactKind::quantification;  // of a mass
  const Rule* rule = nullptr;                        // of the others

  // Whole minutes inside the window, so that nobody falls short of the least or goes over the most.
  double whole_minutes() const;
  bool is_time() const { return from == From::time_rule; }
  // Whether it is a most volume that only a note follows from: it stands for the mass on the medium.
  bool is_ceiling() const { return rule != nullptr && !is_time() && !is_least && rule->otherwise == Otherwise::note; }
};

// Whether something lies between a least and a most. Where the flow is not known, volumes and times can't be held
// against each other: nothing speaks against it.
bool leaves_room(const VolumeEnd& least, const VolumeEnd& most);

// How much air and how many minutes a sample may take.
//
// Least: so much that the target is at or above what the method can state as a figure, and what the rules ask for.
// Most: so little that the expected dust does not overload the medium, and what the rules allow. A rule that only notes
// a larger volume stands for the mass on the medium; where that mass and the expected dust are known, these count, and
// the rule is told. A rule on the volume at reference conditions is turned into a volume of the air that is expected:
//
//   V = V_ref · (P_ref / P) · (T / T_ref)
//
//   V, V_ref  volume drawn, and at reference conditions, L      P, T  pressure, kPa, and temperature, K, at the sample
//   Source    correction/reference_conditions, the way back
//   Valid     as there, in the air that is said or supposed (air_ahead)
//   Example   100 L at 25 °C and 101.325 kPa, drawn at 10 °C and 84.5 kPa  ->  113.88 L
struct VolumeAhead {
  MassFacts facts;
  double flow_l_min = missing;  // it is meant to run at
  std::vector<VolumeEnd> ends;

  int least = -1;  // of the ends that bind; -1: none
  int most = -1;
  std::vector<const Rule*> not_looked_at;  // about volume or time, and nobody can say their figure beforehand

  const VolumeEnd* least_end() const { return least < 0 ? nullptr : &ends[static_cast<std::size_t>(least)]; }
  const VolumeEnd* most_end() const { return most < 0 ? nullptr : &ends[static_cast<std::size_t>(most)]; }
  // The least of those that are volumes or masses; nullptr: none. Times are held to the clock.
  const VolumeEnd* least_volume() const;
  const std::optional<MassFact>& fact_of(const VolumeEnd& end) const { return facts.of(end.mass); }
  // Whether no volume lies between.
  bool is_impossible() const;
  // Whether a whole minute lies between, as far as both are known in minutes.
  bool has_whole_minute() const;
};
VolumeAhead volume_ahead(const Screening& screening, const VolumeAsked& asked, const RulesAhead& rules);

// An end of what would help; NaN: there is none.
struct HelpEnd {
  double at = missing;
  bool includes_it = true;
};

// What would help, each by itself, where there is no window; where there is one, how far each may go.
//
//   Q_from = V_least / t_most          Q_to = V_most / t_least
//
//   Q   flow, L/min     V   L: the ends that are volumes or masses     t   min: the ends that are times
//   Source   V = Q · t, held to both ends, solved for Q
//   Valid    where the volumes leave room for each other, and so do the times: else no flow helps
//   Example  2000 L in at most 480 min  ->  from 4.17 L/min
struct WindowHelp {
  HelpEnd target_mg_m3;       // the lowest that can be stated from the most that is allowed
  HelpEnd quantification_mg;  // the most that the laboratory may need for the target
  HelpEnd flow_from_l_min;
  HelpEnd flow_to_l_min;
  double expected_mg_m3 = missing;  // the most dust that does not overload the medium in the least volume
};
WindowHelp window_help(const VolumeAsked& asked, const VolumeAhead& ahead);

}  // namespace driftwarden
