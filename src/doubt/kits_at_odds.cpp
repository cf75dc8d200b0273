// SPDX-License-Identifier: MIT
#include "doubt/kits_at_odds.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "book/stamp_text.hpp"
#include "diagnostic/joined.hpp"
#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

using Where = Whereabouts::Where;
using Stays = std::vector<Whereabouts::Stay>;
constexpr Day never = std::numeric_limits<Day>::max();
constexpr Day a_year_d = 366;
constexpr Day ten_years_d = 3653;

Day begin_of(const Issue& issue) { return issue.out == no_day ? never - 1 : issue.out; }

// What is missing is in no kit.
Day end_of(const Whereabouts& where, const Issue& issue) {
  if (where.is_missing(issue)) return std::max(issue.out, where.back_of(issue));
  const Day end = where.end_of(issue);
  return end == no_day ? never : end;
}

// Days that a row may be of: one long before all that was drawn, or long after it and after today, is mistyped.
struct DaysOnRecord {
  Day earliest = -never;
  Day latest = never;
};
DaysOnRecord days_on_record(const Book& book, std::optional<Day> as_of) {
  Moment first = no_moment;
  Moment last = no_moment;
  for (Row row = 0; row < book.samples.size(); ++row) {
    if (book.samples.started[row] == no_moment || book.samples.stopped[row] == no_moment) continue;
    first = first == no_moment ? book.samples.started[row] : std::min(first, book.samples.started[row]);
    last = std::max(last, book.samples.stopped[row]);
  }
  DaysOnRecord days;
  if (first == no_moment) return days;
  days.earliest = local_day(first, book.settings.zone) - ten_years_d;
  days.latest = std::max(local_day(last, book.settings.zone), as_of.value_or(no_day)) + ten_years_d;
  return days;
}

// What issues.csv says that can't be so, whatever was drawn and read.
class IssuesAtOdds {
 public:
  IssuesAtOdds(const Book& book, std::optional<Day> as_of, Diagnostics& doubts)
      : book_(book), as_of_(as_of), where_(book, as_of), days_(days_on_record(book, as_of)), doubts_(doubts) {
    for (const Issue& issue : book.issues) {
      if (has_come(issue)) trips_[issue.kit][begin_of(issue)].push_back(&issue);
    }
  }

  void two_kits() {
    for (Row row = 0; row < book_.instruments.size(); ++row) {
      const Issue* longest = nullptr;  // the one that ends last so far
      for (const Issue* issue : where_.issues_of(row)) {
        if (longest != nullptr && begin_of(*issue) < end_of(where_, *longest) &&
            begin_of(*issue) < end_of(where_, *issue))
          tell_two_kits(row, *longest, *issue);
        if (longest == nullptr || end_of(where_, *issue) > end_of(where_, *longest)) longest = issue;
      }
    }
  }

  void rows_differ() {
    for (const auto& [kit, trips] : trips_) {
      for (const auto& [begin, trip] : trips) {
        differ(trip, "is of the kind", [](const Issue& issue) { return issue.kind; });
        differ(trip, "is with", [](const Issue& issue) { return issue.to; });
        differ(trip, "is due back on", [](const Issue& issue) { return text_of(issue.due_back); });
        differ(trip, "came back on", [this](const Issue& issue) { return text_of(where_.back_of(issue)); });
      }
    }
  }

  // A kit that went out in another year stands on no list, and one that is due in another is never overdue.
  void far_days() {
    const auto is_far = [this](Day day) { return day != no_day && (day < days_.earliest || day > days_.latest); };
    for (const Issue& issue : book_.issues) {
      const Day end = std::max(issue.due_back, issue.back);
      if (is_far(issue.out) || is_far(end)) {
        tell_days(issue, date_text(is_far(issue.out) ? issue.out : end) +
                             " lies more than ten years from all that is on record");
      } else if (issue.out != no_day && end != no_day && end - issue.out > a_year_d && has_come(issue)) {
        tell_days(issue, "it is out from " + date_text(issue.out) + " to " + date_text(end) + ", for more than a year");
      }
    }
  }

  void out_again() {
    for (const auto& [kit, trips] : trips_) {
      for (auto trip = trips.begin(); trip != trips.end() && std::next(trip) != trips.end(); ++trip)
        hold_against_next(trip->second, std::next(trip)->second);
    }
  }

 private:
  using Trip = std::vector<const Issue*>;  // what went out in one kit on one day, or is being put into it

  const std::string& name_of(Row instrument) const { return book_.instruments[instrument].name; }
  std::string place_of_issue(const Issue& issue) const { return book_.place_text(book_.files.issues, issue.place); }
  bool has_come(const Issue& issue) const { return issue.out == no_day || !as_of_ || issue.out <= *as_of_; }
  static std::string text_of(Day day) { return day == no_day ? "" : date_text(day); }
  std::string thing_of(const Issue& issue) const {
    return issue.instrument == no_row ? issue.item : name_of(issue.instrument);
  }
  static std::string trip_of(const Issue& issue) {
    return "kit " + issue.kit +
           (issue.out == no_day ? ", which is being put together,"
                                : ", which went out on " + date_text(issue.out) + ",");
  }

  // Each other thing that is said of the whole is told once.
  template <class Says>
  void differ(const Trip& trip, std::string_view what, Says says) {
    const Issue* first = nullptr;
    std::set<std::string> told;
    for (const Issue* issue : trip) {
      const std::string said = says(*issue);
      if (said.empty()) continue;
      if (first == nullptr) first = issue;
      if (said == says(*first) || !told.insert(said).second) continue;
      doubts_.push_back(remark("doubt/kit-rows", book_.place(book_.files.issues, issue->place),
                               "by this row " + trip_of(*issue) + " " + std::string(what) + " " + in_quotes(said) +
                                   ", and by " + place_of_issue(*first) + " " + in_quotes(says(*first)),
                               "correct the row that is wrong; or the kit or the day it went out is another"));
    }
  }

  void tell_days(const Issue& issue, const std::string& what) {
    doubts_.push_back(remark("doubt/kit-day", book_.place(book_.files.issues, issue.place),
                             "of " + thing_of(issue) + " in kit " + issue.kit + ": " + what,
                             "see whether the year is right: a kit of another year is missed on the lists"));
  }

  // What is in both by its name is told as in two kits.
  void hold_against_next(const Trip& trip, const Trip& next) {
    Trip still_out;
    for (const Issue* issue : trip) {
      const bool goes_again =
          issue->instrument != no_row && std::ranges::find(next, issue->instrument, &Issue::instrument) != next.end();
      if (!goes_again && end_of(where_, *issue) > begin_of(*next.front())) still_out.push_back(issue);
    }
    if (still_out.empty()) return;
    const Issue& again = *next.front();
    doubts_.push_back(remark(
        "doubt/out-again", book_.place(book_.files.issues, again.place),
        "kit " + again.kit + (again.out == no_day ? " is being put together" : " went out on " + date_text(again.out)) +
            ", and of what went out in it on " + date_text(trip.front()->out) + " is not back: " +
            joined(still_out, ", ",
                   [this](const Issue* issue) { return thing_of(*issue) + " (" + place_of_issue(*issue) + ")"; }),
        "write down the day it came back, or that it is missing; or the kit or a day is wrong"));
  }

  void tell_two_kits(Row row, const Issue& earlier, const Issue& later) {
    const std::string now = later.out == no_day ? " is being put into kit " + later.kit
                                                : " went out in kit " + later.kit + " on " + date_text(later.out);
    const std::string still = earlier.out == no_day
                                  ? " and into kit " + earlier.kit
                                  : ", while it was out in kit " + earlier.kit + " since " + date_text(earlier.out);
    const Day back = where_.back_of(earlier);
    doubts_.push_back(remark("doubt/two-kits", book_.place(book_.files.issues, later.place),
                             name_of(row) + now + still + (back == no_day ? "" : " and until " + date_text(back)) +
                                 " (" + place_of_issue(earlier) + ")",
                             "a kit, a day or the instrument is wrong; or the day it came back was not written down"));
  }

  const Book& book_;
  const std::optional<Day> as_of_;
  const Whereabouts where_;
  const DaysOnRecord days_;
  Diagnostics& doubts_;
  std::map<std::string_view, std::map<Day, Trip>> trips_;  // of each kit, by the day it went out; the packed one last
};

// What was drawn and read with instruments that are on record as elsewhere.
class UsedElsewhere {
 public:
  UsedElsewhere(const Book& book, const ComeBy& come, std::optional<Day> as_of, Diagnostics& doubts)
      : book_(book), come_(come), where_(book, as_of), doubts_(doubts) {}

  void drawn_elsewhere() {
    for (Row sample = 0; sample < book_.samples.size(); ++sample) {
      const Row pump = book_.samples.pump[sample];
      if (pump == no_row || book_.samples.kind[sample] != SampleKind::sample) continue;
      for (const Moment moment : {book_.samples.started[sample], book_.samples.stopped[sample]}) {
        if (moment == no_moment || !come_.has(moment) || !tell_drawn(sample, pump, moment)) continue;
        break;
      }
    }
  }

  void read_elsewhere(std::span<const Replicates> all) {
    for (const Replicates& set : all) {
      if (set.pump == no_row || set.calibrator == no_row) continue;
      const Day day = local_day(set.first, book_.settings.zone);
      const Stays pump = where_.on(set.pump, day);
      const Stays calibrator = where_.on(set.calibrator, day);
      if (can_be_together(pump, calibrator)) continue;
      doubts_.push_back(
          remark("doubt/elsewhere", place_of(book_, set.rows.front()),
                 name_of(set.pump) + " is read with " + name_of(set.calibrator) + " for " +
                     std::string(owner_name(book_, set)) + " on " + date_text(day) + ", when " +
                     said_of(set.pump, pump) + " and " + said_of(set.calibrator, calibrator),
                 "a day or an instrument is wrong; or somebody handed it on, and issues.csv does not say so"));
    }
  }

 private:
  const std::string& name_of(Row instrument) const { return book_.instruments[instrument].name; }
  std::string place_of_issue(const Issue& issue) const { return book_.place_text(book_.files.issues, issue.place); }

  bool tell_drawn(Row sample, Row pump, Moment moment) {
    const Day day = local_day(moment, book_.settings.zone);
    const Stays stays = where_.on(pump, day);
    const auto is_out = [](const Whereabouts::Stay& stay) { return stay.where == Where::out; };
    if (stays.empty() || std::ranges::any_of(stays, is_out)) return false;
    doubts_.push_back(remark("doubt/elsewhere", book_.place(book_.files.samples, book_.samples.place[sample]),
                             std::string(book_.samples.name[sample]) + " is drawn with " + name_of(pump) + " on " +
                                 date_text(day) + ", when " + said_of(pump, stays),
                             "the day or the pump is wrong; or it went out, and issues.csv does not say so"));
    return true;
  }

  static bool can_be_together(const Stays& pump, const Stays& calibrator) {
    if (pump.empty() || calibrator.empty()) return true;  // nobody knows
    for (const Whereabouts::Stay& one : pump) {
      for (const Whereabouts::Stay& other : calibrator) {
        if (are_in_one_place(one, other)) return true;
      }
    }
    return false;
  }

  static bool are_in_one_place(const Whereabouts::Stay& one, const Whereabouts::Stay& other) {
    if (one.where != other.where || one.where == Where::lost) return false;
    if (one.where == Where::store || one.issue->kit == other.issue->kit) return true;
    return !one.issue->to.empty() && one.issue->to == other.issue->to;
  }

  // "PUMP-03 was out with north crew (kit K-1; issues.csv:3)"
  std::string said_of(Row instrument, const Stays& stays) const {
    const Whereabouts::Stay& stay = stays.front();
    const Issue& issue = *stay.issue;
    const std::string place = " (" + place_of_issue(issue) + ")";
    if (stay.where == Where::out) return name_of(instrument) + " was out with " + holder_of(issue) + place;
    if (stay.where == Where::lost)
      return name_of(instrument) + " was missing since kit " + issue.kit + " came back on " + date_text(issue.back) +
             place;
    return name_of(instrument) + " was back from kit " + issue.kit + " since " + date_text(issue.back) + place;
  }

  const Book& book_;
  const ComeBy& come_;
  const Whereabouts where_;
  Diagnostics& doubts_;
};

}  // namespace

void note_issues(const Book& book, std::optional<Day> as_of, Diagnostics& doubts) {
  IssuesAtOdds issues(book, as_of, doubts);
  issues.two_kits();
  issues.rows_differ();
  issues.out_again();
  issues.far_days();
}

void note_kits(const Book& book, const ComeBy& come, std::optional<Day> as_of, std::span<const Replicates> all,
               Diagnostics& doubts) {
  if (book.issues.empty()) return;
  note_issues(book, as_of, doubts);
  UsedElsewhere used(book, come, as_of, doubts);
  used.drawn_elsewhere();
  used.read_elsewhere(all);
}

}  // namespace driftwarden
