// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/budget_sheet.hpp"

namespace driftwarden {

// What the flow between the checks brings into a budget, and the field sets that look at it.
void enter_field(BudgetSheet& sheet);

// What the field sets on the course bring into it by being read.
void enter_field_sets(BudgetSheet& sheet);

}  // namespace driftwarden
