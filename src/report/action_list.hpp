// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/review.hpp"

namespace driftwarden {

// The actions of a review for a terminal: those to do with whom they are about, who sees to them and by when; those
// that are done; and those that were given to somebody and that the records give no more rise to. Names stand in it as
// they are.
std::string action_list(const Review& review, Day as_of);

// "workshop, by 2026-11-20", ", which is past" behind it where it is, or "" where nobody was told to.
std::string who_sees_to(const Assigned& assigned, Day as_of);

// What is said of one that is not to be done now: "done on 2026-11-18 (workshop)", "workshop,
// not written down as done; it is part of Recalibrate: VOL-2 by now".
std::string what_became_of(const NotedAction& action);

}  // namespace driftwarden
