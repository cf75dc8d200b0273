// SPDX-License-Identifier: MIT
#include "book/whereabouts.hpp"

#include <algorithm>
#include <limits>

#include "book/stamp_text.hpp"

namespace driftwarden {
namespace {

// What is not yet out goes out later than all that is.
Day out_of(const Issue* issue) { return issue->out == no_day ? std::numeric_limits<Day>::max() : issue->out; }

}  // namespace

Whereabouts::Whereabouts(const Book& book, std::optional<Day> as_of)
    : book_(book), as_of_(as_of), of_(book.instruments.size()) {
  for (const Issue& issue : book.issues) {
    if (issue.instrument != no_row && (issue.out == no_day || has_come(issue.out)))
      of_[issue.instrument].push_back(&issue);
  }
  for (std::vector<const Issue*>& issues : of_) std::ranges::stable_sort(issues, {}, out_of);
}

bool Whereabouts::was_looked_at(const Issue& issue) const {
  return issue.back == no_day ? issue.out == no_day || has_come(issue.out) : has_come(issue.back);
}

const Issue* Whereabouts::next_of(const Issue& missed) const {
  const Day since = missed.back == no_day ? missed.out : missed.back;
  if (missed.instrument == no_row || since == no_day) return nullptr;
  for (const Issue* issue : of_[missed.instrument]) {
    if (issue->out != no_day && issue->out > missed.out && issue->out >= since) return issue;
  }
  return nullptr;
}

Day Whereabouts::end_of(const Issue& issue) const {
  const Issue* next = back_of(issue) == no_day && was_missed(issue) ? next_of(issue) : nullptr;
  return next == nullptr ? back_of(issue) : next->out;
}

const Issue* Whereabouts::damaged(Row instrument) const {
  const auto was_seen_to = [&](Day since) {
    return std::ranges::any_of(book_.services, [&](const Service& service) {
      const Day day = local_day(service.serviced, book_.settings.zone);
      return service.instrument == instrument && day >= since && has_come(day);
    });
  };
  const Issue* damaged = nullptr;
  for (const Issue* issue : of_[instrument]) {
    const Day since = issue->back == no_day ? issue->out : issue->back;
    if (issue->came_back == CameBack::damaged && was_looked_at(*issue) && (since == no_day || !was_seen_to(since)))
      damaged = issue;
  }
  return damaged;
}

std::vector<Whereabouts::Stay> Whereabouts::on(Row instrument, Day day) const {
  std::vector<Stay> stays;
  const Issue* last_back = nullptr;
  bool is_on_the_move = false;
  for (const Issue* issue : of_[instrument]) {
    if (issue->out == no_day || issue->out > day) continue;
    const Day back = back_of(*issue);
    const Day end = end_of(*issue);
    if (end == no_day || day <= end) {
      stays.push_back({Where::out, issue});
      if (back == no_day && was_missed(*issue)) stays.push_back({Where::lost, issue});
      is_on_the_move = is_on_the_move || day == issue->out || day == end;
    }
    if (back != no_day && back <= day && (last_back == nullptr || back >= last_back->back)) last_back = issue;
  }
  if (!stays.empty() && !is_on_the_move) return stays;
  if (last_back == nullptr) return is_on_the_move ? std::vector<Stay>() : stays;
  stays.push_back({last_back->missing == YesNo::yes ? Where::lost : Where::store, last_back});
  return stays;
}

std::vector<std::string> Whereabouts::had_by(Row instrument, Day day) const {
  std::vector<std::string> holders;
  for (const Issue* issue : of_[instrument]) {
    const Day end = end_of(*issue);
    if (issue->out == no_day || issue->out > day || (end != no_day && day > end)) continue;
    std::string holder = holder_of(*issue);
    if (std::ranges::find(holders, holder) == holders.end()) holders.push_back(std::move(holder));
  }
  return holders;
}

std::string holder_of(const Issue& issue) {
  return issue.to.empty() ? "kit " + issue.kit : issue.to + " (kit " + issue.kit + ")";
}

}  // namespace driftwarden
