// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "history/assigned.hpp"
#include "record/assignment.hpp"

namespace driftwarden {

// Why something has to be done. `rule` is a rule's full name, or "" where no rule says so.
struct Reason {
  std::string said;
  std::string rule;
};

// One whom the cause of an action touched besides.
struct Touched {
  ActionSubject of = ActionSubject::sample;
  std::string name;
  Row row = no_row;
  bool is_recent = true;
};

// What a cause brought on others, and what to do about them: all those of whom the same is to be said.
struct TouchedPart {
  ActionKind kind = ActionKind::weigh;  // as which it would stand alone
  std::string what;
  std::vector<Reason> why;
  std::vector<Touched> members;  // at least one
  bool is_the_same = false;      // nothing else is said of them than of whom the action is about
};

// A calibrator that somebody's figures lean on, and the day it was read.
struct LeansOnCalibrator {
  Row calibrator = no_row;
  Day on = no_day;
};

// Where an action comes from, as far as the records tell: by this those of one cause are put together.
struct ActionOrigin {
  std::vector<LeansOnCalibrator> state;  // calibrators whose papers are the whole reason: overdue, without certificate
  std::vector<LeansOnCalibrator> error;  // those whose error could be the whole reason
  Day wrong_until = no_day;              // of a calibrator that is wrong: read before this day; no_day: to this day
  std::vector<std::string> spoilt;       // samples that a pump spoilt by what it is taken out for
  bool is_of_flow = false;               // every reason is a flow that moved, or is not what it should be
  std::string batch;                     // of a sample
};

// One cause: whom it is about, what to do, why, by when, and whom else it touched.
struct ReviewAction {
  ActionKind kind = ActionKind::watch;
  ActionSubject of = ActionSubject::records;
  std::string name;         // as in its key
  std::string what;         // what to do, in a sentence
  std::vector<Reason> why;  // at least one
  Row row = no_row;         // of the sample or instrument
  bool is_recent = true;    // arose in the days reviewed, or somebody sees to it; else it is open from before
  Day by = no_day;          // before this day; no_day: at once, or no day is known
  std::vector<TouchedPart> touched = {};
  ActionOrigin origin = {};
  Day arose = no_day;      // of the newest record it leans on; no_day: it holds until the records say otherwise
  Assigned assigned = {};  // who sees to it

  // Whether it is about this one, or touches it.
  bool concerns(ActionSubject subject, Row subject_row) const;
  // How many samples it is about or touches.
  std::size_t samples() const;
  ActionKey key() const { return {kind, of, name}; }
  // By when: what comes first, the day of the matter or the day that was given for it.
  Day last_day() const;
};

// When things have to be done: how many before anything is used or sampled again, before a day, without one.
struct ActionTimes {
  std::size_t at_once = 0;
  std::size_t by_a_day = 0;
  Day first = no_day;  // the earliest of those days
  std::size_t without_a_day = 0;
};
// Of those that arose in the days reviewed.
ActionTimes times_of(const std::vector<ReviewAction>& actions);

// Sorts by what is recent, then by kind; else the order stays.
void sort_by_urgency(std::vector<ReviewAction>& actions);

}  // namespace driftwarden
