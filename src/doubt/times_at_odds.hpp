// SPDX-License-Identifier: MIT
#pragma once

#include "doubt/replicates.hpp"

namespace driftwarden {

// A calibrator that is read on two pumps within the same minutes: doubt/two-places.
void note_two_places(const Book& book, std::span<const Replicates> all, Diagnostics& doubts);

// A pump whose flow is read for a sample before it could be warm by what the book says: within the warm-up that the
// sample states it was still in use for another sample, running or being read after it: doubt/warm-up. Of a sample
// that states none, only where the pump was still in use at the very reading.
void note_warm_up(const Book& book, const ComeBy& come, std::span<const Replicates> all, Diagnostics& doubts);

}  // namespace driftwarden
