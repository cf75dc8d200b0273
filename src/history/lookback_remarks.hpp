// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "history/lookback.hpp"

namespace driftwarden {

// What the figures of a look-back leave open: an open window, a certificate within tolerance, readings of the day
// itself, certificates that may have leaned on the instrument and don't say so.
std::vector<std::string> lookback_remarks(const Screening& screening, const Lookback& lookback);

}  // namespace driftwarden
