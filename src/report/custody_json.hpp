// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "report/custody_sheet.hpp"

namespace driftwarden {

// The sheet as JSON (docs/custody.schema.json): the samples and blanks that stand, and those that are void, without
// flow and volume.
std::string custody_json(const CustodySheet& sheet);

}  // namespace driftwarden
