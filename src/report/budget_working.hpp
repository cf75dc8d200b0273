// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

// The uncertainty budget as a table: each input with its estimate, u, distribution, degrees of freedom, and for the
// volume its sensitivity, contribution and share; then the figures with u, ν, k and U; what the flow between the checks
// rests on; what is missing.
std::string budget_working(const SampleResult& result, const Settings::Uncertainty& settings);

}  // namespace driftwarden
