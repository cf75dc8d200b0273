// SPDX-License-Identifier: MIT
#pragma once

#include "doubt/replicates.hpp"

namespace driftwarden {

// Readings that were written down twice, set after set, each with the row it repeats: alike in all that was read,
// and with the same replicate number, at one second, or not within one run of rows of their set and minute. Equal
// readings of one run without such numbers and seconds are honest. Those struck out are left out.
struct ReadTwice {
  Row copy = no_row;
  Row original = no_row;
};
std::vector<ReadTwice> read_twice(const Book& book, const ComeBy& come);

// Tells of each set with such readings once: doubt/read-twice.
void note_read_twice(const Book& book, const std::vector<ReadTwice>& copies, Diagnostics& doubts);

// Takes the copies out of the sets, so that they hide no other doubt.
void leave_out_copies(const std::vector<ReadTwice>& copies, std::vector<Replicates>& all);

}  // namespace driftwarden
