// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

// Bytes as they may be shown anywhere: "\\x1b" for each, in small hexadecimal digits.
std::string escaped(std::string_view bytes);

}  // namespace driftwarden
