// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "verdict/rules_ahead.hpp"

namespace driftwarden {

// What is asked for of a sample that is still to be taken; a missing concentration is NaN.
struct VolumeAsked {
  SampleAhead sample;
  double target_mg_m3 = missing;    // that has to be found, of what is analysed
  double expected_mg_m3 = missing;  // of all dust that the medium collects
};

// One thing that says how much air at least, or at most.
struct VolumeEnd {
  enum class From : std::uint8_t { mass, volume_rule, time_rule };
  From from = From::mass;
  bool is_least = false;
  bool binds = true;                                 // else only told: what it stands for is reckoned with already
  double volume_l = missing;                         // by the flow where it is a time; missing without one
  double minutes = missing;                          // by the flow where it is a volume
  double concentration_mg_m3 = missing;              // of a mass: at which it is held
  MassFactKind mass = MassFactKind::quantification;  // of a mass
  const Rule* rule = nullptr;                        // of the others

  // Whole minutes inside the window, so that nobody falls short of the least or goes over the most.
  double whole_minutes() const;
};

// How much air and how many minutes a sample may take.
//
// Least: so much that the target is at or above what the method can state as a figure, and what the rules ask for.
// Most: so little that the expected dust does not overload the medium, and what the rules allow. A rule that only notes
// a larger volume stands for the mass on the medium; where that mass and the expected dust are known, these count, and
// the rule is told.
struct VolumeAhead {
  MassFacts facts;
  double flow_l_min = missing;  // it is meant to run at
  std::vector<VolumeEnd> ends;

  int least = -1;  // of the ends that bind; -1: none
  int most = -1;

  const VolumeEnd* least_end() const { return least < 0 ? nullptr : &ends[static_cast<std::size_t>(least)]; }
  const VolumeEnd* most_end() const { return most < 0 ? nullptr : &ends[static_cast<std::size_t>(most)]; }
  const std::optional<MassFact>& fact_of(const VolumeEnd& end) const { return facts.of(end.mass); }
  // Whether no volume lies between. Where the flow is not known, volumes and times can't be held against each other.
  bool is_impossible() const;
};
VolumeAhead volume_ahead(const Screening& screening, const VolumeAsked& asked, const RulesAhead& rules);

// What would help where there is no window, or leave it wider; a figure that can't be worked out is NaN.
struct WindowHelp {
  double target_mg_m3 = missing;       // the lowest that can be stated from the most that is allowed
  double quantification_mg = missing;  // that the laboratory would have to reach for the target
  double flow_l_min = missing;         // at which the least volume is drawn in the longest time
  double expected_mg_m3 = missing;     // the most dust that does not overload the medium in the least volume
};
WindowHelp window_help(const VolumeAsked& asked, const VolumeAhead& ahead);

}  // namespace driftwarden
