// SPDX-License-Identifier: MIT
#pragma once

#include "book/whereabouts.hpp"
#include "doubt/replicates.hpp"

namespace driftwarden {

// What issues.csv says of an instrument and cannot be so.
//   doubt/kit-day    a day that lies years from all that is on record, or a kit that is out for more than one
//   doubt/two-kits   it is in two kits at once, or twice in one
//   doubt/kit-rows   rows of one kit that went out on one day say different things of it
//   doubt/out-again  a kit goes out again, and something of it has not come back
//   doubt/elsewhere  a sample is drawn with it, or it is read, while it is on record as elsewhere: back in the store,
//                    missing, or a pump and its calibrator each with somebody else
// All but the last are said by issues.csv alone: note_issues.
// On a day it went out or came back it may have been used on either side.
void note_kits(const Book& book, const ComeBy& come, std::optional<Day> as_of, std::span<const Replicates> all,
               Diagnostics& doubts);
void note_issues(const Book& book, std::optional<Day> as_of, Diagnostics& doubts);

}  // namespace driftwarden
