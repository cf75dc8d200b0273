// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string_view>

// Texts of this version that are built into the program, so that no folder of the reader's can put others in their
// place.
namespace driftwarden {

// docs/CHANGELOG.md.
std::string_view change_log_text();

// The rule packs as they were shipped with this version, by the name of their file.
struct ShippedText {
  std::string_view name;  // "common-practice"
  std::string_view text;
};
std::span<const ShippedText> packs_as_shipped();

}  // namespace driftwarden
