// SPDX-License-Identifier: MIT
#include "history/assigned.hpp"

#include <algorithm>
#include <vector>

#include "book/stamp_text.hpp"

namespace driftwarden {
namespace {

void take_over(Assigned& assigned, const Assignment& row, Day written) {
  if (!row.who.empty()) assigned.who = row.who;
  if (row.due != no_day) assigned.due = row.due;
  if (!row.note.empty()) assigned.note = row.note;
  if (row.done != YesNo::unsaid) assigned.done = row.done == YesNo::yes ? written : no_day;
  assigned.last = &row;
}

}  // namespace

std::map<ActionKey, Assigned> assigned_by(const Book& book, Day as_of) {
  std::vector<const Assignment*> rows;
  for (const Assignment& row : book.assignments) rows.push_back(&row);
  std::ranges::stable_sort(rows, {}, &Assignment::written);
  std::map<ActionKey, Assigned> all;
  for (const Assignment* row : rows) {
    const Day written = local_day(row->written, book.settings.zone);
    if (written <= as_of) take_over(all[row->action], *row, written);
  }
  return all;
}

}  // namespace driftwarden
