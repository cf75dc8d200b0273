// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "verdict/outlook.hpp"

namespace driftwarden {

// What `ahead` tells, for other programs: docs/ahead.schema.json describes it.
std::string ahead_json(const Book& book, const Outlook& outlook, Day as_of, std::string_view version);

}  // namespace driftwarden
