// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/outlook.hpp"

namespace driftwarden {

// What `ahead` tells, for people: of a single sample the whole working, of a batch a line each.
std::string ahead_table(const Book& book, const Outlook& outlook, Day as_of);

}  // namespace driftwarden
