// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "history/heed.hpp"
#include "history/instrument_history.hpp"
#include "history/instrument_standing.hpp"
#include "history/review_action.hpp"
#include "verdict/subjects.hpp"

namespace driftwarden {

// What is due, or will be out of its tolerance, within so many days is told beforehand. (This project's choice.)
inline constexpr Day soon_days = 30;

// The series by which a review looks at an instrument: of a pump its pre flow (from nominal, where one is known) and
// its drift, of whatever is calibrated its error as found.
std::vector<const SeriesHistory*> reviewed_series(const InstrumentHistory& history);

// What is known of an instrument on a day.
struct KnownInstrument {
  const Screening& screening;
  const InstrumentStanding& standing;
  const InstrumentHistory& history;
  const SubjectResult* findings = nullptr;  // of rules about it; nullptr: none
  Day as_of = no_day;
  Day recent_from = no_day;  // what came up before this day is open from before
  SignalLoad load;
  std::vector<BehaviourTest> signals;  // of it, the rarest first
};

// What has to be done about an instrument, most urgent first; nothing where it is out of service, except that a
// calibrator found beyond its tolerance has to be looked back from all the same.
std::vector<ReviewAction> actions_about(const KnownInstrument& known);

}  // namespace driftwarden
