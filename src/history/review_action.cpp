// SPDX-License-Identifier: MIT
#include "driftwarden/history/review_action.hpp"

#include <algorithm>

namespace driftwarden {

std::string_view to_text(ActionKind kind) {
  switch (kind) {
    case ActionKind::look_back:
      return "Look back";
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

void sort_by_urgency(std::vector<ReviewAction>& actions) {
  std::stable_sort(actions.begin(), actions.end(), [](const ReviewAction& a, const ReviewAction& b) {
    if (a.is_recent != b.is_recent) return a.is_recent;
    return a.kind < b.kind;
  });
}

}  // namespace driftwarden
