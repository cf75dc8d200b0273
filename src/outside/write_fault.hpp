// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

// What is told where results can't be written, with the system's reason (an errno); 0: it gave none.
Diagnostic unwritable(const std::filesystem::path& place, int reason);
// Where a folder is to be made and something is there.
Diagnostic already_there(const std::filesystem::path& place);

}  // namespace driftwarden
