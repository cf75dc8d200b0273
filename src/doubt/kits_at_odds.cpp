// SPDX-License-Identifier: MIT
#include "doubt/kits_at_odds.hpp"

#include <algorithm>
#include <limits>

#include "book/timestamp.hpp"

namespace driftwarden {
namespace {

using Where = Whereabouts::Where;
using Stays = std::vector<Whereabouts::Stay>;
constexpr Day never = std::numeric_limits<Day>::max();

class KitsAtOdds {
 public:
  KitsAtOdds(const Book& book, const ComeBy& come, std::optional<Day> as_of, Diagnostics& doubts)
      : book_(book), come_(come), where_(book, as_of), doubts_(doubts) {}

  void two_kits() {
    for (Row row = 0; row < book_.instruments.size(); ++row) {
      const Issue* longest = nullptr;  // the one that ends last so far
      for (const Issue* issue : where_.issues_of(row)) {
        if (longest != nullptr && begin_of(*issue) < end_of(*longest) && begin_of(*issue) < end_of(*issue))
          tell_two_kits(row, *longest, *issue);
        if (longest == nullptr || end_of(*issue) > end_of(*longest)) longest = issue;
      }
    }
  }

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
  static Day begin_of(const Issue& issue) { return issue.out == no_day ? never - 1 : issue.out; }
  // What is missing is in no kit.
  Day end_of(const Issue& issue) const {
    if (where_.is_missing(issue)) return std::max(issue.out, where_.back_of(issue));
    const Day end = where_.end_of(issue);
    return end == no_day ? never : end;
  }
  const std::string& name_of(Row instrument) const { return book_.instruments[instrument].name; }
  std::string place_of_issue(const Issue& issue) const { return book_.place_text(book_.files.issues, issue.place); }

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

void note_kits(const Book& book, const ComeBy& come, std::optional<Day> as_of, std::span<const Replicates> all,
               Diagnostics& doubts) {
  if (book.issues.empty()) return;
  KitsAtOdds kits(book, come, as_of, doubts);
  kits.two_kits();
  kits.drawn_elsewhere();
  kits.read_elsewhere(all);
}

}  // namespace driftwarden
