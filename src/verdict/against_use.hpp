// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "verdict/screening.hpp"

namespace driftwarden {

// What speaks against using a pump or a calibrator on a day, by what is known on another, each in a sentence: it is out
// of service, missing, or came back damaged; of a calibrator, too, that its certificate has run out, or none is in
// force.
std::vector<std::string> against_use(const Screening& screening, Row instrument, Day on, Day as_of);

}  // namespace driftwarden
