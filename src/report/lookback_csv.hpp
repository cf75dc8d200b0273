// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/lookback.hpp"

namespace driftwarden {

// The heading line, with its line end.
std::string lookback_csv_headings();

// `lookback --format csv`: a line a sample, its figures before and under each supposition in columns. What an open
// window leaves unknown is empty.
std::string lookback_csv(const Screening& screening, const Lookback& lookback);

}  // namespace driftwarden
