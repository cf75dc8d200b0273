// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "assessment/practice.hpp"
#include "assessment/reading_set.hpp"

namespace driftwarden {

// A moment of a sample at which its flow is known: by one set, or by sets of several calibrators read so close together
// that they compare the calibrators and say nothing of a course.
struct CourseStop {
  double at_min = 0;      // since the start
  double flow_l_min = 0;  // mean of its sets'
  double share = 0;       // in the mean flow
};

// One of these sets, by its place among the sample's sets, and its share in the mean flow.
struct CourseSet {
  std::int32_t set = -1;
  std::uint32_t stop = 0;
  double share = 0;
};

// What a course is laid between: places of the sets that count, and the times of the sample.
struct CourseEnds {
  std::int32_t pre = -1;
  std::int32_t post = -1;
  Moment started = no_moment;
  Moment stopped = no_moment;
};

// How the flow went from the pre to the post set by way of the field sets, along straight lines.
//
//   q = Σ w_i q_i      w_i = (t_(i+1) − t_(i−1)) / (2 (t_n − t_0))
//
//   q_i  flow at stop i, L/min     t_i  its time; the pre set counts at the start, the post set at the stop; at both
//   ends the missing neighbour is the end itself
//   Source   40 CFR 50 App. B §10.1.2: a record that changes is split into intervals, each with its mean; here each has
//            the mean of its ends (trapezoids)
//   Valid    the flow moves steadily between two readings of it; empty without field sets within the sample, or where
//            an end is missing
//   Example  2.00, 1.98, 1.92, 1.91 L/min at 0, 120, 300, 450 min: 877.05 L in 450 min, not 879.75 L by the ends
struct FlowCourse {
  std::vector<CourseStop> stops;
  std::vector<CourseSet> sets;  // in order of time
  double mean_l_min = missing;

  bool empty() const { return stops.empty(); }
  void clear();
  double minutes() const { return empty() ? missing : stops.back().at_min; }
  double share_of(std::int32_t set) const;  // 0 of one that is not on the course
};

// Whether the mean flow is the one along this course, by practice.
inline bool follows(FieldSets practice, const FlowCourse& course) {
  return practice == FieldSets::line && !course.empty();
}

// Fills `course` (its memory is used again). Sets of two calibrators, the one begun within longest_gap_in_a_set_s of
// the other's end, are one stop.
void lay_course(std::span<const ReadingSet> sets, const CourseEnds& ends, FlowCourse& course);

}  // namespace driftwarden
