// SPDX-License-Identifier: MIT
#pragma once

#include "verdict/volume_ahead.hpp"
#include "workshop/rehearsal.hpp"

namespace driftwarden {

// The fewest whole minutes that draw the least volume even if the volume is smaller by all of its uncertainty.
//
//   V(t) − U(V(t)) ≥ V_least
//
//   V(t), U   the volume and its expanded uncertainty (95 %) of a sample of t minutes, rehearsed, L
//   V_least   the least volume that a mass or a rule on a volume asks for, L; times are held to the clock, without U
//   Source    JCGM 106:2012 clause 8 (guard bands): accepted inside a band as long as U
//   Valid     where U grows more slowly than V; t is sought from V_least upwards, each trial rehearsed itself
//   Example   240 L at 2 L/min with U = 3 L in about 121 min  ->  121.5 min, so 122 min
//
// No fewer than the window's least; missing where no volume is asked for, or a rehearsal states no U. What else of the
// sample is asked than its minutes, which are not looked at.
double spare_minutes(const OpenedBook& opened, RehearsalAsked asked, const VolumeAhead& volume);

}  // namespace driftwarden
