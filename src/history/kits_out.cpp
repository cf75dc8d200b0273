// SPDX-License-Identifier: MIT
#include "history/kits_out.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "book/whereabouts.hpp"
#include "diagnostic/joined.hpp"
#include "diagnostic/letters.hpp"
#include "history/certificate_series.hpp"
#include "quantity/rounding.hpp"

namespace driftwarden {
namespace {

void add_to(std::vector<KitOut>& kits, const Issue& issue) {
  const auto found =
      std::ranges::find_if(kits, [&](const KitOut& kit) { return kit.kit() == issue.kit && kit.out() == issue.out; });
  if (found == kits.end()) {
    kits.emplace_back(issue);
  } else {
    found->add(issue);
  }
}

// As it goes on behind a colon; a name in capitals stays.
std::string with_small_beginning(std::string text) {
  const auto is_capital = [](char c) { return small_letter(c) != c; };
  if (!text.empty() && (text.size() < 2 || !is_capital(text[1]))) text.front() = small_letter(text.front());
  return text;
}

// How many of the problems are errors in issues.csv, or in files in its place.
std::size_t faults_of_issues(const Book& book) {
  return static_cast<std::size_t>(std::ranges::count_if(book.problems, [&book](const Diagnostic& problem) {
    return is_error(problem) && std::ranges::find(book.files.issues, problem.place.file) != book.files.issues.end();
  }));
}

std::string not_known_of_kits(const Book& book) {
  const std::size_t faults = faults_of_issues(book);
  if (book.issues.empty()) {
    const char* why = book.files.issues.empty() ? "The book has no issues.csv"
                      : faults > 0              ? "No row of issues.csv could be used"
                                                : "issues.csv has no rows";
    return std::string(why) +
           ": which kits are out, overdue or missing, and what is not charged, came back damaged or will be due before "
           "it is back, is not known.";
  }
  return faults == 0 ? ""
                     : counted(faults, "fault", "faults") + " in issues.csv: what those rows say of kits is left out.";
}

class Fitness {
 public:
  Fitness(const Screening& screening, const std::vector<ReviewAction>& actions,
          const std::vector<InstrumentStanding>& standings, Day as_of)
      : screening_(screening),
        book_(screening.book()),
        standings_(standings),
        as_of_(as_of),
        where_(book_, as_of),
        why_(book_.instruments.size()) {
    for (const ReviewAction& action : actions) said_by(action);
    const KitsOut kits = kits_out(book_, as_of_);
    for (const std::vector<KitOut>* all : {&kits.being_packed, &kits.out}) {
      for (const KitOut& kit : *all) said_by(kit);
    }
    for (Row row = 0; row < book_.instruments.size(); ++row) {
      if (const Issue* damaged = where_.damaged(row))
        say(row, "came back damaged" + (damaged->back == no_day ? "" : " on " + date_text(damaged->back)) +
                     (damaged->note.empty() ? "" : ": " + damaged->note));
    }
  }

  std::vector<UnfitInstrument> all() {
    std::vector<UnfitInstrument> unfit;
    for (const InstrumentStanding& standing : standings_) {
      std::vector<std::string>& why = why_[standing.instrument];
      if (!standing.is_in_service) {
        why.clear();
        if (is_in_a_kit(standing.instrument))
          why.push_back("out of service since " + date_text(book_.instruments[standing.instrument].out_of_service));
      }
      if (!why.empty()) unfit.push_back({standing.instrument, std::move(why), where_is(standing.instrument)});
    }
    return unfit;
  }

 private:
  void say(Row instrument, const std::string& what) {
    if (instrument != no_row && std::ranges::find(why_[instrument], what) == why_[instrument].end())
      why_[instrument].push_back(what);
  }

  void said_by(const ReviewAction& action) {
    if (action.of == ActionSubject::instrument) say_of(action.row, action.kind, action.why);
    for (const TouchedPart& part : action.touched) {
      for (const Touched& member : part.members) {
        if (member.of == ActionSubject::instrument) say_of(member.row, part.kind, part.why);
      }
    }
  }

  void say_of(Row instrument, ActionKind kind, const std::vector<Reason>& why) {
    const std::string_view short_word = word_of(instrument, kind);
    if (short_word.empty() || why.empty()) return;
    const bool says_all = kind == ActionKind::find_certificate;
    say(instrument, std::string(short_word) + (says_all ? "" : ": " + with_small_beginning(why.front().said)));
  }

  // "" where it may go.
  std::string_view word_of(Row instrument, ActionKind kind) const {
    if (kind == ActionKind::look_back) return is_left_in_tolerance(instrument) ? "" : "found wrong";
    if (kind == ActionKind::take_out || kind == ActionKind::check_calibrator) return "found wrong";
    if (kind == ActionKind::cross_check) return "to be compared";
    if (kind == ActionKind::recalibrate) return "past due";
    if (kind == ActionKind::find_certificate) return "without a certificate";
    return kind == ActionKind::watch ? "on Watch" : "";
  }

  // Whether the calibration that found it wrong has put it right.
  bool is_left_in_tolerance(Row instrument) const {
    const std::vector<const Certificate*> certificates = certificates_of(book_, instrument, as_of_);
    if (certificates.empty()) return false;
    const std::optional<CalibratedPoint> worst = worst_point(*certificates.back(), Found::as_left);
    return worst && !is_beyond(worst->error(Found::as_left), tolerance_of(screening_, certificates));
  }

  void said_by(const KitOut& kit) {
    for (const Issue* thing : kit.things) {
      if (thing->instrument == no_row) continue;
      if (thing->charged == YesNo::no) say(thing->instrument, "not charged");
      const Day due = standings_[thing->instrument].due;
      if (due != no_day && due >= as_of_ && kit.due_back != no_day && due < kit.due_back)
        say(thing->instrument, "due on " + date_text(due) + ", before its kit is to be back");
    }
  }

  bool is_in_a_kit(Row instrument) const {
    return std::ranges::any_of(where_.issues_of(instrument), [this](const Issue* issue) {
      return where_.is_packed(*issue) || where_.is_out(*issue);
    });
  }

  std::string where_is(Row instrument) const {
    for (const Issue* issue : where_.issues_of(instrument)) {
      if (where_.is_missing(*issue)) return "missing from kit " + issue->kit;
      if (where_.is_out(*issue)) return "out with " + holder_of(*issue);
      if (where_.is_packed(*issue)) return "being put into kit " + issue->kit;
    }
    return where_.issues_of(instrument).empty() ? "" : "in the store";
  }

  const Screening& screening_;
  const Book& book_;
  const std::vector<InstrumentStanding>& standings_;
  Day as_of_;
  Whereabouts where_;
  std::vector<std::vector<std::string>> why_;  // by instrument
};

}  // namespace

bool keeps_kits(const Book& book) {
  return !book.files.issues.empty() || !book.files.kits.empty() || !book.issues.empty();
}

std::string thing_of(const Book& book, const Issue& issue) {
  return issue.instrument == no_row ? issue.item : book.instruments[issue.instrument].name;
}

void KitOut::add(const Issue& thing) {
  things.push_back(&thing);
  if (kind.empty() || kind == kit()) kind = thing.kind_of_kit();
  if (to.empty()) to = thing.to;
  if (due_back == no_day || (thing.due_back != no_day && thing.due_back < due_back)) due_back = thing.due_back;
}

Day KitOut::overdue_d(Day as_of) const {
  return !is_out() || due_back == no_day || due_back >= as_of ? 0 : as_of - due_back;
}

std::string KitsOut::why_unfit(Row instrument) const {
  const auto found = std::ranges::find(unfit, instrument, &UnfitInstrument::instrument);
  return found == unfit.end() ? "" : joined(found->why, "; ");
}

KitsOut kits_out(const Book& book, Day as_of) {
  KitsOut kits;
  kits.not_known = not_known_of_kits(book);
  const Whereabouts where(book, as_of);
  for (const Issue& issue : book.issues) {
    if (where.is_missing(issue)) {
      kits.missing.push_back(&issue);
    } else if (where.is_packed(issue)) {
      add_to(kits.being_packed, issue);
    } else if (where.is_out(issue)) {
      add_to(kits.out, issue);
    }
  }
  return kits;
}

std::vector<ReviewAction> actions_about_kits(const Book& book, const KitsOut& kits, Day as_of) {
  std::vector<ReviewAction> actions;
  const auto add = [&actions](const std::string& kit, const std::string& what, const std::string& why) {
    const auto found = std::ranges::find(actions, kit, &ReviewAction::name);
    if (found == actions.end()) {
      actions.push_back({ActionKind::bring_back, ActionSubject::kit, kit, what, {{why, ""}}, no_row, true});
    } else {
      found->why.push_back({why, ""});
      if (found->what != what) found->what += " " + what;
    }
  };
  for (const KitOut& kit : kits.out) {
    if (const Day late = kit.overdue_d(as_of); late > 0) {
      const std::string who = kit.to.empty() ? "nobody is named who has it" : kit.to + " has it";
      add(kit.kit(), "Ask for it, and write down in issues.csv the day it comes back.",
          "It was due back " + counted(static_cast<std::size_t>(late), "day", "days") + " ago, on " +
              date_text(as_of - late) + "; " + who);
    }
  }
  for (const Issue* issue : kits.missing)
    add(issue->kit, "Look for what is missing, or put another in its place; then write no under missing in issues.csv.",
        thing_of(book, *issue) + " is missing" +
            (issue->back == no_day ? "" : " since the kit came back on " + date_text(issue->back)));
  return actions;
}

std::vector<UnfitInstrument> unfit_to_go(const Screening& screening, const std::vector<ReviewAction>& actions,
                                         const std::vector<InstrumentStanding>& standings, Day as_of) {
  return Fitness(screening, actions, standings, as_of).all();
}

}  // namespace driftwarden
