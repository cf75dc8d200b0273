// SPDX-License-Identifier: MIT
#pragma once

#include <set>
#include <string>
#include <string_view>

namespace driftwarden {

// A text as part of a file's name: letters, digits, '-', '_' and '.' stay, and never a '.' first.
std::string as_file_name(std::string_view text);

// Whether a text is as a pattern says, in which * stands for any letters and ? for any one (fnmatch of POSIX).
bool fits_wildcards(const std::string& pattern, const std::string& text);

// Gives out names of files in one folder. Two that differ in capitals only would be one file on some systems.
class FreshNames {
 public:
  // The stem, shortened if need be, with "-2", "-3", … where it was given out before.
  std::string name(std::string_view stem, std::string_view ending);

 private:
  std::set<std::string> used_;
};

}  // namespace driftwarden
