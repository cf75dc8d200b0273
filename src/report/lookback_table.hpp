// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "history/lookback.hpp"
#include "report/paint.hpp"

namespace driftwarden {

// A look-back for people, at most 80 columns: what was found and since when, three lines of figures a sample, the
// findings that each supposition brings or takes away, and what moves in which samples.
std::string lookback_table(const Screening& screening, const Lookback& lookback, Paint paint);

}  // namespace driftwarden
