// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/followed_up.hpp"
#include "history/heed.hpp"
#include "history/instrument_history.hpp"
#include "history/instrument_standing.hpp"
#include "history/kits_out.hpp"
#include "verdict/sample_judge.hpp"
#include "verdict/subjects.hpp"
#include "verdict/totals.hpp"

namespace driftwarden {

inline constexpr int days_of_a_review = 7;  // unless another number is asked for

// The days that are reviewed, both ends included: the full days before the day of the review, and that day as far as
// it has gone. Reviews held every seven days leave no gap.
struct ReviewPeriod {
  Day from = no_day;
  Day to = no_day;

  bool holds(Day day) const { return from <= day && day <= to; }
};
ReviewPeriod review_period(Day as_of, int days);

struct ReviewedSample {
  Row sample = no_row;
  Verdict verdict = Verdict::valid;
  Day day = no_day;         // of its start, else of its batch's last sample; no_day: nobody can say
  bool is_recent = false;   // of the days reviewed, or of no known day
  bool is_settled = false;  // not valid, and ruled on
};

struct ReviewedBatch {
  std::string name;  // "" for samples without one
  Day first = no_day;
  Day last = no_day;
  bool is_recent = false;
  std::size_t blanks = 0;
  Totals totals;  // blanks among them
};

// How often a rule could not be held to a sample.
struct UnjudgedRule {
  std::uint32_t rule = 0;
  std::size_t undecided = 0;
  std::size_t passed_over = 0;  // the figure isn't given, and the rule doesn't mind
};

// All that a review has to tell, worked out. Points into the screening and the histories it was made from.
struct Review {
  ReviewPeriod period;
  SignalLoad load;                      // of what asks for action by its behaviour
  std::vector<ReviewAction> actions;    // to be done: most urgent first, those open from before behind them
  std::vector<NotedAction> done;        // as actions.csv says
  std::vector<NotedAction> lapsed;      // of which actions.csv speaks, and nothing gives rise to them any more
  std::vector<ReviewedSample> samples;  // in the book's order
  std::size_t later_samples = 0;        // started after the day of the review: left out
  std::vector<ReviewedBatch> batches;   // in the book's order
  Totals recent;
  Totals earlier;
  std::vector<InstrumentStanding> instruments;  // in the book's order
  // Those with a series to be shown, most urgent first, out of service last.
  std::vector<const InstrumentHistory*> charted;
  KitsOut kits;
  std::vector<SubjectResult> subjects;
  std::vector<UnjudgedRule> unjudged;      // in the order of the rules, those only
  std::vector<const Decision*> decisions;  // taken on or before the day of the review, the newest first

  // Whether something is to be done about it.
  bool asks_about(Row instrument) const;
  std::size_t recent_actions() const;  // they stand before those open from before
};

// `histories` are those of all instruments, in the book's order.
Review review_of(const Screening& screening, const std::vector<InstrumentHistory>& histories, Day as_of, int days);

}  // namespace driftwarden
