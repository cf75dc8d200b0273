// SPDX-License-Identifier: MIT
#include "assessment/flow_course.hpp"

#include <algorithm>

namespace driftwarden {
namespace {

double minutes_after(Moment start, Moment at) { return static_cast<double>(at - start) / 60; }

// The middle of a set's readings in minutes after the start, also between two seconds.
double middle_after(Moment start, const SetRows& set) {
  return (minutes_after(start, set.first) + minutes_after(start, set.last)) / 2;
}

bool is_on_the_way(const ReadingSet& set, const CourseEnds& ends) {
  const double at = middle_after(ends.started, set.rows);
  return set.rows.stage == Stage::field && set.flow.n > 0 && at >= 0 && at <= minutes_after(ends.started, ends.stopped);
}

class CourseLayer {
 public:
  CourseLayer(std::span<const ReadingSet> sets, const CourseEnds& ends, FlowCourse& course)
      : sets_(sets), ends_(ends), course_(course) {}

  void lay() {
    for (std::size_t i = 0; i < sets_.size(); ++i) {
      if (is_on_the_way(sets_[i], ends_)) course_.sets.push_back({static_cast<std::int32_t>(i)});
    }
    if (course_.sets.empty()) return;
    std::stable_sort(course_.sets.begin(), course_.sets.end(), [this](const CourseSet& a, const CourseSet& b) {
      return middle_after(ends_.started, at(a).rows) < middle_after(ends_.started, at(b).rows);
    });
    course_.sets.insert(course_.sets.begin(), {ends_.pre});
    course_.sets.push_back({ends_.post});
    share_out_stops();
    place_stops();
    weigh();
  }

 private:
  const ReadingSet& at(const CourseSet& set) const { return sets_[static_cast<std::size_t>(set.set)]; }

  void share_out_stops() {
    std::uint32_t stop = 0;
    std::size_t first = 0;  // of this stop's sets
    for (std::size_t i = 1; i < course_.sets.size(); ++i) {
      const bool joins_both_ends = first == 0 && i + 1 == course_.sets.size();
      if (joins_both_ends || !is_compared(first, i)) {
        ++stop;
        first = i;
      }
      course_.sets[i].stop = stop;
    }
  }

  // Whether a set compares its calibrator with those of the stop before it.
  bool is_compared(std::size_t first, std::size_t set) const {
    const SetRows& rows = at(course_.sets[set]).rows;
    for (std::size_t i = first; i < set; ++i) {
      if (at(course_.sets[i]).rows.calibrator == rows.calibrator) return false;
    }
    return rows.first - at(course_.sets[set - 1]).rows.last <= longest_gap_in_a_set_s;
  }

  void place_stops() {
    const std::uint32_t last = course_.sets.back().stop;
    course_.stops.resize(last + 1);
    for (std::uint32_t s = 0; s <= last; ++s) {
      double flow = 0;
      double at_min = 0;
      const double n = static_cast<double>(count(s));
      for (const CourseSet& set : course_.sets) {
        if (set.stop != s) continue;
        flow += at(set).flow.mean / n;
        at_min += middle_after(ends_.started, at(set).rows) / n;
      }
      course_.stops[s] = {at_min, flow, 0};
    }
    course_.stops.front().at_min = 0;
    course_.stops.back().at_min = minutes_after(ends_.started, ends_.stopped);
  }

  std::ptrdiff_t count(std::uint32_t stop) const {
    return std::count_if(course_.sets.begin(), course_.sets.end(),
                         [stop](const CourseSet& set) { return set.stop == stop; });
  }

  void weigh() {
    const std::vector<CourseStop>& stops = course_.stops;
    const double whole = 2 * course_.minutes();
    course_.mean_l_min = 0;
    for (std::size_t s = 0; s < stops.size(); ++s) {
      const double before = stops[s == 0 ? 0 : s - 1].at_min;
      const double after = stops[std::min(s + 1, stops.size() - 1)].at_min;
      course_.stops[s].share = (after - before) / whole;
      course_.mean_l_min += course_.stops[s].share * stops[s].flow_l_min;
    }
    for (CourseSet& set : course_.sets) set.share = stops[set.stop].share / static_cast<double>(count(set.stop));
  }

  std::span<const ReadingSet> sets_;
  const CourseEnds& ends_;
  FlowCourse& course_;
};

}  // namespace

void FlowCourse::clear() {
  stops.clear();
  sets.clear();
  mean_l_min = missing;
}

double FlowCourse::share_of(std::int32_t set) const {
  for (const CourseSet& each : sets) {
    if (each.set == set) return each.share;
  }
  return 0;
}

void lay_course(std::span<const ReadingSet> sets, const CourseEnds& ends, FlowCourse& course) {
  course.clear();
  if (ends.pre < 0 || ends.post < 0 || ends.started == no_moment || ends.stopped <= ends.started) return;
  CourseLayer(sets, ends, course).lay();
}

}  // namespace driftwarden
