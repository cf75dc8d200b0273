// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <cstdint>
#include <iterator>
#include <string>
#include <string_view>

#include "record/instrument.hpp"
#include "record/moment.hpp"
#include "record/sample.hpp"

namespace driftwarden {

// What somebody has to do, most urgent first: first what goes on spoiling samples, then what is lost, then what can
// still be cleared up, then what is coming.
enum class ActionKind : std::uint8_t {
  look_back,         // a calibrator came back beyond its tolerance
  check_calibrator,  // its pumps say that it is wrong, and no certificate does yet
  cross_check,       // one of several calibrators is wrong, or the pumps that one of them read
  take_out,          // a pump is beyond its tolerance
  recalibrate,       // an instrument is overdue
  resample,          // a sample is void
  mend_record,       // a row can't be understood
  find_reading,      // a reading is missing
  find_figure,       // something else is missing
  find_certificate,  // an instrument has none in the book
  bring_back,        // a kit is overdue, or something of it is missing
  complete_batch,    // a rule about a batch is not met
  adjust_soon,       // an instrument is on its way out of its tolerance
  recalibrate_soon,  // an instrument is due soon
  look_into,         // records that look doubtful
  weigh,             // a sample stands, with a remark
  watch,             // an instrument behaves otherwise than it did
};

// What an action is called, on a page and in a book's actions.csv: a word that changes leaves old files unreadable.
inline constexpr std::string_view action_kind_words[] = {"Look back",
                                                         "Check the calibrator",
                                                         "Compare calibrators",
                                                         "Take out of use",
                                                         "Recalibrate",
                                                         "Sample again",
                                                         "Mend the record",
                                                         "Find the reading",
                                                         "Find what is missing",
                                                         "Find the certificate",
                                                         "Bring it back",
                                                         "Look at the batch",
                                                         "Adjust soon",
                                                         "Plan the calibration",
                                                         "Look into it",
                                                         "Weigh the finding",
                                                         "Watch"};
static_assert(std::size(action_kind_words) == static_cast<std::size_t>(ActionKind::watch) + 1);

// Whom an action is about.
enum class ActionSubject : std::uint8_t { sample, instrument, batch, records, kit };
inline constexpr std::string_view action_subject_words[] = {"sample", "instrument", "batch", "records", "kit"};
static_assert(std::size(action_subject_words) == static_cast<std::size_t>(ActionSubject::kit) + 1);

std::string_view to_text(ActionKind kind);
std::string_view to_text(ActionSubject of);

// By what an action is the same in the next review: what, about whom.
struct ActionKey {
  ActionKind kind = ActionKind::watch;
  ActionSubject of = ActionSubject::records;
  std::string name;  // the sample's, instrument's, batch's or kit's; of records the file's

  friend bool operator==(const ActionKey&, const ActionKey&) = default;
  friend auto operator<=>(const ActionKey&, const ActionKey&) = default;
};

// One row of actions.csv: who sees to an action, by which day, whether it is done. What a row doesn't say stays as an
// earlier one said.
struct Assignment {
  Moment written = no_moment;
  std::string by;  // who wrote it down
  ActionKey action;
  std::string who;
  Day due = no_day;
  YesNo done = YesNo::unsaid;
  std::string note;
  RowPlace place;
};

}  // namespace driftwarden
