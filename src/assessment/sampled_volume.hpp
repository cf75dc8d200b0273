// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/practice.hpp"
#include "record/moment.hpp"

namespace driftwarden {

// Minutes from one moment to another, negative where they stand the other way round; NaN where one is missing.
double minutes_between(Moment from, Moment to);

// Minutes sampled, on the absolute time line, so that a clock change counts for what it is.
//
//   t = (stopped − started) / 60 − paused
//
//   started, stopped  seconds since 1970 UTC     paused  minutes; missing counts as none
//   Source   time off is left out: 40 CFR 50 App. L §7.4.4, §7.4.13
//   Valid    stopped after started; NaN where a time is missing or the pauses are longer than the run
//   Example  22:00 MDT to 06:00 MST over the autumn change is 480 min by the clock's hands and 540 min of sampling
double minutes_sampled(Moment started, Moment stopped, double paused_min);

// The flow a volume is reckoned with, L/min, by the practice in force.
//
//   mean (q_pre + q_post)/2 · lower min(q_pre, q_post) · pre q_pre · nominal q_nominal
//
//   Source   mean: 40 CFR 50 App. B §10.1.1; nominal: NMAM 0600 step 6 note 2
//   Valid    NaN where a flow it needs is missing
//   Example  2.000 and 1.904 L/min, nominal 2.0: 1.952, 1.904, 2.000, 2.0
double flow_for_volume(double pre_l_min, double post_l_min, double nominal_l_min, FlowForVolume practice);

}  // namespace driftwarden
