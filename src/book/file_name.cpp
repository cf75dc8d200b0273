// SPDX-License-Identifier: MIT
#include "book/file_name.hpp"

#include <fnmatch.h>

#include "book/plain_text.hpp"
#include "diagnostic/letters.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t longest_stem = 100;

}  // namespace

std::string as_file_name(std::string_view text) {
  std::string name;
  for (const char c : text) {
    const bool stays =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
    name += stays ? c : '_';
  }
  if (name.empty() || name.front() == '.') name.insert(0, "_");
  return name;
}

bool fits_wildcards(const std::string& pattern, const std::string& text) {
  return ::fnmatch(pattern.c_str(), text.c_str(), 0) == 0;
}

std::string FreshNames::name(std::string_view stem, std::string_view ending) {
  const std::string short_stem(stem.substr(0, longest_stem));
  std::string name = short_stem + std::string(ending);
  for (int n = 2; !used_.insert(in_small_letters(name)).second; ++n) {
    name = short_stem + "-" + std::to_string(n) + std::string(ending);
  }
  return name;
}

}  // namespace driftwarden
