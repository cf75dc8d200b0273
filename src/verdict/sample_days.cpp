// SPDX-License-Identifier: MIT
#include "verdict/sample_days.hpp"

#include <algorithm>
#include <limits>

#include "book/stamp_text.hpp"

namespace driftwarden {

SampleDays::SampleDays(const Book& book, Day last) : book_(book), last_(last) {
  // The later of two days that have come; of days to come the earlier.
  const auto better = [last](Day a, Day b) { return std::max(a, b) <= last ? std::max(a, b) : std::min(a, b); };
  for (Row row = 0; row < book.samples.size(); ++row) {
    const Day day = started(row);
    if (day == no_day || batch_of(row) == 0) continue;
    Day& of_batch = of_batch_.try_emplace(batch_of(row), day).first->second;
    of_batch = better(of_batch, day);
  }
}

Day SampleDays::day_of(Row sample) const {
  const Day day = started(sample);
  if (day != no_day || book_.samples.kind[sample] == SampleKind::sample) return day;
  const auto found = of_batch_.find(batch_of(sample));
  return found == of_batch_.end() ? no_day : found->second;
}

bool SampleDays::has_come(Row sample) const {
  static_assert(no_day == std::numeric_limits<Day>::min());  // so what has no day has come
  return day_of(sample) <= last_;
}

TextId SampleDays::batch_of(Row sample) const { return field(book_.samples.batch, sample, TextId{0}); }

Day SampleDays::started(Row sample) const {
  const Moment moment = book_.samples.started[sample];
  return moment == no_moment ? no_day : local_day(moment, book_.settings.zone);
}

}  // namespace driftwarden
