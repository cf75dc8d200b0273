// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "diagnostic/result.hpp"

namespace driftwarden {

// The files of a bag's manifest and their SHA-512 digests, by name.
using Manifest = std::map<std::string, std::string>;

// One line a file, "digest  name", as RFC 8493 asks and `sha512sum -c` reads it.
std::string manifest_text(const Manifest& manifest);

// Reads that text back, and takes no other way of writing the same: lines out of order, capitals or a tab would be
// changes that no digest shows. Faults: evidence/manifest, evidence/name; all of them, up to 20.
Result<Manifest> parse_manifest(std::string_view text, const std::string& file);

}  // namespace driftwarden
