// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string_view>

#include "verdict/rule_files.hpp"

// Texts of this version that are built into the program, so that no folder of the reader's can put others in their
// place.
namespace driftwarden {

// docs/CHANGELOG.md.
std::string_view change_log_text();

// The rule packs as they were shipped with this version, by the name of their file.
std::span<const BuiltInPack> packs_as_shipped();

}  // namespace driftwarden
