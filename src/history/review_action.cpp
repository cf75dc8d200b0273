// SPDX-License-Identifier: MIT
#include "history/review_action.hpp"

#include <algorithm>

namespace driftwarden {
namespace {

// Up to this kind, what is put off goes on spoiling samples.
constexpr ActionKind last_at_once = ActionKind::recalibrate;

}  // namespace

bool ReviewAction::concerns(ActionSubject subject, Row subject_row) const {
  if (of == subject && row == subject_row) return true;
  return std::any_of(touched.begin(), touched.end(), [&](const TouchedPart& part) {
    return std::any_of(part.members.begin(), part.members.end(),
                       [&](const Touched& member) { return member.of == subject && member.row == subject_row; });
  });
}

std::size_t ReviewAction::samples() const {
  std::size_t count = of == ActionSubject::sample ? 1 : 0;
  for (const TouchedPart& part : touched) {
    count +=
        static_cast<std::size_t>(std::count_if(part.members.begin(), part.members.end(), [](const Touched& member) {
          return member.of == ActionSubject::sample;
        }));
  }
  return count;
}

Day ReviewAction::last_day() const {
  const Day given = assigned.is_done() ? no_day : assigned.due;
  if (by == no_day || given == no_day) return by == no_day ? given : by;
  return std::min(by, given);
}

ActionTimes times_of(const std::vector<ReviewAction>& actions) {
  ActionTimes times;
  for (const ReviewAction& action : actions) {
    if (!action.is_recent) continue;
    const Day day = action.last_day();
    if (action.by == no_day && action.kind <= last_at_once) {
      ++times.at_once;
    } else if (day == no_day) {
      ++times.without_a_day;
    } else {
      times.first = times.by_a_day == 0 ? day : std::min(times.first, day);
      ++times.by_a_day;
    }
  }
  return times;
}

void sort_by_urgency(std::vector<ReviewAction>& actions) {
  std::stable_sort(actions.begin(), actions.end(), [](const ReviewAction& a, const ReviewAction& b) {
    if (a.is_recent != b.is_recent) return a.is_recent;
    return a.kind < b.kind;
  });
}

}  // namespace driftwarden
