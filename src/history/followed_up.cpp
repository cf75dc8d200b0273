// SPDX-License-Identifier: MIT
#include "history/followed_up.hpp"

#include <algorithm>

namespace driftwarden {
namespace {

bool is_over(const ReviewAction& action) {
  return action.assigned.is_done() && action.arose != no_day && action.arose <= action.assigned.done;
}

bool touches(const ReviewAction& action, const ActionKey& key) {
  return std::ranges::any_of(action.touched, [&](const TouchedPart& part) {
    return part.kind == key.kind && std::ranges::any_of(part.members, [&](const Touched& member) {
             return member.of == key.of && member.name == key.name;
           });
  });
}

}  // namespace

FollowedUp followed_up(const Book& book, std::vector<ReviewAction> actions, Day from, Day as_of) {
  std::map<ActionKey, Assigned> assigned = assigned_by(book, as_of);
  FollowedUp followed;
  for (ReviewAction& action : actions) {
    const auto found = assigned.find(action.key());
    if (found != assigned.end()) {
      action.assigned = found->second;
      assigned.erase(found);
    }
    if (is_over(action)) {
      followed.done.push_back({action.key(), action.assigned, action.row});
      continue;
    }
    action.is_recent = action.is_recent || action.assigned.is_open();
    followed.to_do.push_back(std::move(action));
  }
  sort_by_urgency(followed.to_do);
  for (const auto& [key, of_it] : assigned) {
    if (of_it.is_done() && of_it.done < from) continue;
    const auto whole =
        std::ranges::find_if(followed.to_do, [&key = key](const ReviewAction& action) { return touches(action, key); });
    (of_it.is_done() ? followed.done : followed.lapsed)
        .push_back({key, of_it, no_row, whole == followed.to_do.end() ? nullptr : &*whole});
  }
  return followed;
}

}  // namespace driftwarden
