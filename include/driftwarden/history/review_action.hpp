// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "driftwarden/record/instrument.hpp"

namespace driftwarden {

// What somebody has to do, most urgent first: first what goes on spoiling samples, then what is lost, then what can
// still be cleared up, then what is coming.
enum class ActionKind : std::uint8_t {
  look_back,         // a calibrator came back beyond its tolerance
  take_out,          // a pump is beyond its tolerance
  recalibrate,       // an instrument is overdue
  resample,          // a sample is void
  mend_record,       // a row can't be understood
  find_reading,      // a reading is missing
  find_figure,       // something else is missing
  find_certificate,  // an instrument has none in the book
  complete_batch,    // a rule about a batch is not met
  adjust_soon,       // an instrument is on its way out of its tolerance
  recalibrate_soon,  // an instrument is due soon
  look_into,         // records that look doubtful
  weigh,             // a sample stands, with a remark
  watch,             // an instrument behaves otherwise than it did
};

// In two or three words: "Look back", "Take out of use".
std::string_view to_text(ActionKind kind);

// Whom an action is about.
enum class ActionSubject : std::uint8_t { sample, instrument, batch, records };

// Why something has to be done. `rule` is a rule's full name, or "" where no rule says so.
struct Reason {
  std::string said;
  std::string rule;
};

struct ReviewAction {
  ActionKind kind = ActionKind::watch;
  ActionSubject of = ActionSubject::records;
  std::string name;         // the sample's, instrument's or batch's; of records the file's
  std::string what;         // what to do, in a sentence
  std::vector<Reason> why;  // at least one
  Row row = no_row;         // of the sample or instrument
  bool is_recent = true;    // arose in the days reviewed; else it is open from before
  Day by = no_day;          // before this day; no_day: at once, or no day is known
};

// Sorts by what is recent, then by kind; else the order stays.
void sort_by_urgency(std::vector<ReviewAction>& actions);

}  // namespace driftwarden
