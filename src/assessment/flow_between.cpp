// SPDX-License-Identifier: MIT
#include "assessment/flow_between.hpp"

#include <algorithm>
#include <cmath>

namespace driftwarden {
namespace {

// Calls look(share of the time, flow at its begin, flow at its end) for each span of a course.
template <class Look>
void each_span(const FlowCourse& course, Look look) {
  for (std::size_t s = 1; s < course.stops.size(); ++s) {
    const CourseStop& from = course.stops[s - 1];
    const CourseStop& to = course.stops[s];
    look((to.at_min - from.at_min) / course.minutes(), from.flow_l_min, to.flow_l_min);
  }
}

bool is_of_the_mean(FlowForVolume flow) { return flow == FlowForVolume::mean || flow == FlowForVolume::nominal; }

// Variances of the spans: those in which their ends' distance leads, and those in which the pump's own drift does.
struct Variances {
  double by_distance = 0;
  double by_drift = 0;

  void add(double share, double apart, double drift_half_width) {
    const double seen = share * apart / 2;
    const double expected = share * std::sqrt(share) * drift_half_width;
    (seen >= expected ? by_distance : by_drift) += std::max(seen * seen, expected * expected) / 3;
  }
  double sum() const { return by_distance + by_drift; }
};

}  // namespace

KnownBetween known_between(const AssessmentBasis& basis, const SampleAssessment& f) {
  KnownBetween known;
  const DriftSpread& earlier = known.told.earlier =
      basis.pump_drifts.before(basis.book.samples.pump[f.sample], f.post_set()->rows.first);
  const bool has_history = earlier.uses >= enough_uses;
  const double share_of_flow = has_history ? earlier.s / 2 : basis.book.settings.uncertainty.flow_between;
  Variances variances;
  const auto add = [&](double share, double from, double to) {
    variances.add(share, std::abs(to - from), f.mean_flow_l_min * share_of_flow);
  };
  if (follows(basis.practice.field_sets, f.course)) {
    each_span(f.course, add);
  } else {
    add(1, f.pre_l_min, f.post_l_min);
  }
  known.u = (is_of_the_mean(basis.practice.flow_for_volume) ? 1 : 2) * std::sqrt(variances.sum());
  const bool is_of_history = has_history && variances.by_drift > 0;
  const double ratio = variances.sum() / variances.by_drift;
  known.dof = is_of_history ? earlier.uses * ratio * ratio : std::numeric_limits<double>::infinity();
  known.told.from = variances.by_drift <= variances.by_distance ? FlowBetween::From::distance
                    : has_history                               ? FlowBetween::From::earlier_uses
                                                                : FlowBetween::From::stated;
  return known;
}

double pauses_half_width(const SampleAssessment& f) {
  if (!(f.paused_min > 0) || !(f.minutes > 0)) return 0;
  double farthest = 0;
  each_span(f.course, [&](double, double from, double to) {
    farthest = std::max(farthest, std::abs((from + to) / 2 - f.course.mean_l_min));
  });
  return farthest * f.paused_min / f.minutes;
}

}  // namespace driftwarden
