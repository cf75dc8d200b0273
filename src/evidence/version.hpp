// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace driftwarden {

// A version of the program: "0.2.0" is {0, 2, 0}; a later one compares greater.
using Version = std::array<unsigned, 3>;

// Nothing where the text is no version: three whole numbers of at most six digits, with points between them.
std::optional<Version> version_from(std::string_view text);

}  // namespace driftwarden
