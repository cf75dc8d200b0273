// SPDX-License-Identifier: MIT
#pragma once

#include "doubt/replicates.hpp"

namespace driftwarden {

// Tells of readings that lie far from the others of their set by the scatter of all other sets of their calibrator and
// pump: doubt/slip. Three readings alone can't tell which of them is off; with what is known of the two, one of them
// can.
void note_slips(const Book& book, const std::vector<Replicates>& all, const ScatterMap& scatter, Diagnostics& doubts);

}  // namespace driftwarden
