// SPDX-License-Identifier: MIT
#pragma once

#include "assessment/budget_sheet.hpp"

namespace driftwarden {

// What temperature and pressure, at the readings and while sampling, bring into a budget; and what a correction that is
// left out does.
void enter_conditions(BudgetSheet& sheet);

}  // namespace driftwarden
