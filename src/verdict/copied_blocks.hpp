// SPDX-License-Identifier: MIT
#pragma once

#include "verdict/replicates.hpp"

namespace driftwarden {

// Readings of one sample that repeat those of another in order, longer than chance makes it: doubt/copied.
void note_copies(const Book& book, std::span<const Replicates> all, const ScatterMap& scatter, Diagnostics& doubts);

}  // namespace driftwarden
