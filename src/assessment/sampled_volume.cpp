// SPDX-License-Identifier: MIT
#include "assessment/sampled_volume.hpp"

#include <algorithm>

#include "record/sample.hpp"

namespace driftwarden {

double minutes_between(Moment from, Moment to) {
  if (from == no_moment || to == no_moment) return missing;
  return static_cast<double>(to - from) / 60;
}

double minutes_sampled(Moment started, Moment stopped, double paused_min) {
  const double minutes = minutes_between(started, stopped) - (is_missing(paused_min) ? 0 : paused_min);
  return minutes >= 0 ? minutes : missing;
}

double flow_for_volume(double pre_l_min, double post_l_min, double nominal_l_min, FlowForVolume practice) {
  switch (practice) {
    case FlowForVolume::mean:
      return (pre_l_min + post_l_min) / 2;
    case FlowForVolume::lower:
      return is_missing(pre_l_min) || is_missing(post_l_min) ? missing : std::min(pre_l_min, post_l_min);
    case FlowForVolume::pre:
      return pre_l_min;
    case FlowForVolume::nominal:
      return nominal_l_min;
  }
  return missing;
}

}  // namespace driftwarden
