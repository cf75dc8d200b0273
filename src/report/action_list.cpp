// SPDX-License-Identifier: MIT
#include "report/action_list.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "diagnostic/characters.hpp"
#include "report/review_words.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t room_for_a_kind = 22;

std::string line_of(const ActionKey& key, const std::string& more) {
  std::string kind(to_text(key.kind));
  kind.resize(std::max(kind.size() + 1, room_for_a_kind), ' ');
  return "  " + kind + name_of(key) + (more.empty() ? "" : ": " + more) + '\n';
}

std::string with_note(std::string text, const Assigned& assigned) {
  if (!assigned.note.empty()) text += (text.empty() ? "" : "; ") + assigned.note;
  return text;
}

void append_noted(std::string& text, const std::vector<NotedAction>& noted, const char* heading) {
  if (noted.empty()) return;
  text += std::string(heading) + '\n';
  for (const NotedAction& action : noted)
    text += line_of(action.key, with_note(what_became_of(action), action.assigned));
}

}  // namespace

std::string who_sees_to(const Assigned& assigned, Day as_of) {
  if (assigned.is_done())
    return "written down as done on " + date_text(assigned.done) + ", and the records still give rise to it";
  std::string text = assigned.who;
  if (assigned.due == no_day) return text;
  text += (text.empty() ? "by " : ", by ") + date_text(assigned.due);
  return assigned.due < as_of ? text + ", which is past" : text;
}

std::string what_became_of(const NotedAction& action) {
  const Assigned& assigned = action.assigned;
  if (assigned.is_done())
    return "done on " + date_text(assigned.done) + (assigned.who.empty() ? "" : " (" + assigned.who + ")");
  std::string text = assigned.who.empty() ? "not written down as done" : assigned.who + ", not written down as done";
  if (action.now != nullptr)
    text += "; it is part of " + std::string(to_text(action.now->kind)) + ": " + name_of(action.now->key()) + " by now";
  return text;
}

std::string action_list(const Review& review, Day as_of) {
  std::string text = how_much(review) + '\n';
  for (const ReviewAction& action : review.actions) {
    const std::string more = with_note(who_sees_to(action.assigned, as_of), action.assigned);
    text += line_of(action.key(), more.empty() && action.by != no_day ? "by " + date_text(action.by) : more);
  }
  append_noted(text, review.done, "Done");
  append_noted(text, review.lapsed, "The records give no more rise to these: write them down as done, or look why");
  return text;
}

}  // namespace driftwarden
