// SPDX-License-Identifier: MIT
#include "history/service_starts.hpp"

#include "book/stamp_text.hpp"
#include "record/moment.hpp"

namespace driftwarden {

ServiceStarts service_starts(const Book& book, Row instrument, Day as_of) {
  ServiceStarts starts;
  for (const Service& service : book.services) {
    const Day day = local_day(service.serviced, book.settings.zone);
    if (service.instrument != instrument || day > as_of) continue;
    starts.by_time.push_back({service.serviced, service.what});
    starts.by_day.push_back({static_cast<Moment>(day) * seconds_a_day + 1, service.what});
  }
  return starts;
}

}  // namespace driftwarden
