// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/lookback.hpp"

namespace driftwarden {

// `lookback --format json`. Blocks name their figures as screen does; `linear` is null where the window is open.
std::string lookback_json(const Screening& screening, const Lookback& lookback);

// The same where nothing was found beyond tolerance: no certificate, no window, no samples.
std::string lookback_json_of_nothing(const Book& book, Row instrument);

}  // namespace driftwarden
