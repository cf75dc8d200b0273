// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "report/kit_sheet.hpp"

namespace driftwarden {

// What of the kits is being put together, out, overdue and missing, and which instruments are not fit to go, as JSON
// (docs/kit.schema.json).
std::string kits_json(const Book& book, const KitsOut& kits, Day as_of, std::string_view version);

// The list of one kit likewise.
std::string kit_json(const KitSheet& sheet);

}  // namespace driftwarden
