// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

inline constexpr std::size_t widest_table = 110;  // columns of a terminal that holds the table of the budget

// The uncertainty budget as a table: each input with its estimate, u, distribution, degrees of freedom, and for the
// volume its sensitivity, contribution and share; then the figures with u, ν, k and U; what the flow between the checks
// rests on; what is missing. Where `columns` are too few for the table, an input takes two lines.
std::string budget_working(const SampleResult& result, const Settings::Uncertainty& settings,
                           std::size_t columns = widest_table);

}  // namespace driftwarden
