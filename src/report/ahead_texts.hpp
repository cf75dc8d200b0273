// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/outlook.hpp"

namespace driftwarden {

// What `ahead` tells, for people: of a single sample the whole working, of a batch a line each.
std::string ahead_table(const Book& book, const Outlook& outlook, Day as_of);

// How long and how much of a sample, in a line for its sheet: "at least 118 min (200 L), at most 480 min (816 L): 0.5
// mg/m3 has to be found"; that no volume fits; "" where neither a target nor what is expected is planned.
std::string window_text(const VolumeAsked& asked, const VolumeAhead& volume);

}  // namespace driftwarden
