// SPDX-License-Identifier: MIT
#include "history/review_action.hpp"

#include <algorithm>

namespace driftwarden {
namespace {

// Up to this kind, what is put off goes on spoiling samples.
constexpr ActionKind last_at_once = ActionKind::recalibrate;

}  // namespace

std::string_view to_text(ActionKind kind) {
  switch (kind) {
    case ActionKind::look_back:
      return "Look back";
    case ActionKind::check_calibrator:
      return "Check the calibrator";
    case ActionKind::cross_check:
      return "Compare calibrators";
    case ActionKind::take_out:
      return "Take out of use";
    case ActionKind::recalibrate:
      return "Recalibrate";
    case ActionKind::resample:
      return "Sample again";
    case ActionKind::mend_record:
      return "Mend the record";
    case ActionKind::find_reading:
      return "Find the reading";
    case ActionKind::find_figure:
      return "Find what is missing";
    case ActionKind::find_certificate:
      return "Find the certificate";
    case ActionKind::complete_batch:
      return "Look at the batch";
    case ActionKind::adjust_soon:
      return "Adjust soon";
    case ActionKind::recalibrate_soon:
      return "Plan the calibration";
    case ActionKind::look_into:
      return "Look into it";
    case ActionKind::weigh:
      return "Weigh the remark";
    case ActionKind::watch:
      return "Watch";
  }
  return "";
}

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

ActionTimes times_of(const std::vector<ReviewAction>& actions) {
  ActionTimes times;
  for (const ReviewAction& action : actions) {
    if (!action.is_recent) continue;
    if (action.by != no_day) {
      times.first = times.by_a_day == 0 ? action.by : std::min(times.first, action.by);
      ++times.by_a_day;
    } else {
      ++(action.kind <= last_at_once ? times.at_once : times.without_a_day);
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
