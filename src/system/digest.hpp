// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace driftwarden {

// SHA-256 (FIPS 180-4) of some bytes, as 64 lower-case hexadecimal digits.
std::string sha256_of(std::string_view bytes);

// The same in base64 (RFC 4648 §4), as content policies write it.
std::string base64_sha256_of(std::string_view bytes);

// SHA-512 (FIPS 180-4), as 128 of them.
std::string sha512_of(std::string_view bytes);

}  // namespace driftwarden
