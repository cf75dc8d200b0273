// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "driftwarden/diagnostic/result.hpp"

namespace driftwarden {

// What an evidence package was made by and of: all that judging it anew needs beside the inputs.
struct PackageNote {
  std::string version;               // of driftwarden
  std::string as_of;                 // 2026-11-16
  std::vector<std::string> batches;  // none: the whole book
  bool has_charts = false;
  bool is_signed = false;
};

// data/package.json, and back. Faults: evidence/package.
std::string package_note_text(const PackageNote& note);
Result<PackageNote> parse_package_note(std::string_view text);

}  // namespace driftwarden
