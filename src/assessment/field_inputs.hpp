// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/budget_sheet.hpp"

namespace driftwarden {

// What the flow between the checks brings into a budget, and the field sets that look at it.
void enter_field(BudgetSheet& sheet);

}  // namespace driftwarden
