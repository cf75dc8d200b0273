// SPDX-License-Identifier: MIT
#include "report/review_words.hpp"

#include "book/stamp_text.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_names = 8;

// "2 before anything is sampled again, 1 by 2026-12-03, 4 without a date"
std::string when(const ActionTimes& times) {
  std::string text;
  const auto add = [&text](std::size_t count, const std::string& said) {
    if (count > 0) text += (text.empty() ? "" : ", ") + std::to_string(count) + " " + said;
  };
  add(times.at_once, "before anything is sampled again");
  add(times.by_a_day, (times.by_a_day == 1 ? "by " : "by a day, the first ") + date_text(times.first));
  add(times.without_a_day, "without a date");
  return text;
}

std::string in_a_line(const std::vector<std::string_view>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size() && i < most_names; ++i) text += (i == 0 ? "" : ", ") + std::string(names[i]);
  if (names.size() > most_names) text += " and " + std::to_string(names.size() - most_names) + " more";
  return text;
}

}  // namespace

std::string how_much(const Review& review) {
  const std::size_t recent = review.recent_actions();
  const std::size_t older = review.actions.size() - recent;
  std::string text = recent == 0 ? "Nothing from these days needs action"
                                 : counted(recent, "thing", "things") + " to do: " + when(times_of(review.actions));
  if (older > 0)
    text += "; " + std::to_string(older) + (recent == 0 ? "" : " more") + (older == 1 ? " is" : " are") +
            " open from before";
  return text;
}

std::string name_of(const ActionKey& key) {
  if (key.of == ActionSubject::kit) return "kit " + key.name;
  return key.of == ActionSubject::batch ? (key.name.empty() ? "samples without a batch" : "batch " + key.name)
                                        : key.name;
}

std::vector<TouchedWith> touched_of(const ReviewAction& action) {
  std::vector<TouchedWith> groups;
  for (std::size_t i = 0; i < action.touched.size();) {
    const TouchedPart& first = action.touched[i];
    std::vector<std::string_view> names;
    for (; i < action.touched.size() && action.touched[i].what == first.what; ++i) {
      for (const Touched& member : action.touched[i].members) names.push_back(member.name);
    }
    groups.push_back({in_a_line(names), first.what, first.why.front().said});
  }
  return groups;
}

}  // namespace driftwarden
