// SPDX-License-Identifier: MIT
#include "plot/date_axis.hpp"

#include <algorithm>
#include <cmath>

#include "book/stamp_text.hpp"

namespace driftwarden {
namespace {

constexpr Day monday = 4;  // 1970-01-05

std::vector<Day> every_days(Day first, Day last, Day step) {
  std::vector<Day> days;
  const Day anchor = step % 7 == 0 ? monday : 0;
  Day day = first - ((first - anchor) % step + step) % step;
  if (day < first) day += step;
  for (; day <= last; day += step) days.push_back(day);
  return days;
}

std::vector<Day> every_months(Day first, Day last, int step) {
  std::vector<Day> days;
  CalendarDate date = date_of(first);
  int month = date.year * 12 + date.month - 1;
  month -= month % step;
  for (;; month += step) {
    const Day day = day_from({month / 12, month % 12 + 1, 1});
    if (day > last) return days;
    if (day >= first) days.push_back(day);
  }
}

enum class Label { day, month, year };

std::vector<DateTic> labelled(const std::vector<Day>& days, Label label) {
  std::vector<DateTic> tics;
  for (const Day day : days) {
    const std::string text = date_text(day);
    const std::size_t length = label == Label::day ? 10 : label == Label::month ? 7 : 4;
    tics.push_back({static_cast<double>(day), text.substr(0, length)});
  }
  return tics;
}

}  // namespace

std::vector<DateTic> date_tics(double from_day, double to_day, std::size_t most) {
  const auto first = static_cast<Day>(std::ceil(from_day));
  const auto last = static_cast<Day>(std::floor(to_day));
  if (last < first) return {};
  const auto span = static_cast<std::size_t>(last - first) + 1;
  for (const Day step : {1, 2, 7, 14}) {
    if (span / static_cast<std::size_t>(step) > most) continue;
    const std::vector<Day> days = every_days(first, last, step);
    if (!days.empty() && days.size() <= most) return labelled(days, Label::day);
  }
  for (const int step : {1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200, 2400, 6000}) {
    const std::vector<Day> days = every_months(first, last, step);
    if (!days.empty() && days.size() <= most) return labelled(days, step < 12 ? Label::month : Label::year);
  }
  return labelled({first}, Label::day);
}

}  // namespace driftwarden
