// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostic/result.hpp"

namespace driftwarden {

// Of which instruments there are charts: of those that the results lean on, of all of the book, or of none.
enum class ChartsOf : std::uint8_t { used, all, none };
inline constexpr std::string_view charts_of_words[] = {"used", "all", "none"};
std::string_view to_text(ChartsOf charts_of);
std::optional<ChartsOf> charts_of(std::string_view word);

// What an evidence package was made by and of: all that judging it anew needs beside the inputs.
struct PackageNote {
  std::string version;               // of driftwarden
  std::string as_of;                 // 2026-11-16
  std::vector<std::string> batches;  // none: the whole book
  bool has_charts = false;
  bool is_signed = false;
  ChartsOf charts_of = ChartsOf::used;  // as it was asked for
};

// data/package.json, and back. Faults: evidence/package.
std::string package_note_text(const PackageNote& note);
Result<PackageNote> parse_package_note(std::string_view text);

}  // namespace driftwarden
