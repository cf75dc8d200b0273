// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

// Far more than a pack of rules needs, far less than overflows the stack of the TOML library, which goes one call
// deeper for each bracket and each part of a dotted key.
inline constexpr std::size_t most_toml_bytes = 1'000'000;
inline constexpr std::size_t deepest_toml_nesting = 32;
inline constexpr std::size_t most_toml_key_parts = 16;

// Why a text must not reach the TOML library, if there is a reason.
std::optional<Diagnostic> fault_of_size_or_depth(std::string_view text, const std::string& file);

}  // namespace driftwarden
