// SPDX-License-Identifier: MIT
#include "book/file_manner.hpp"

#include <algorithm>

#include "book/book_table.hpp"
#include "book/file_name.hpp"

namespace driftwarden {
namespace {

bool is_of(const std::string& pattern, std::string_view path) {
  const std::string whole(path);
  const std::string last = whole.substr(whole.rfind('/') + 1);
  return fits_wildcards(pattern, whole) || fits_wildcards(pattern, last);
}

}  // namespace

bool fits_pattern(const std::string& pattern, std::string_view path) {
  return is_of(pattern, path) || is_of(pattern, split_sheet(path).file);
}

FileManner manner_of(const Settings& settings, std::string_view file) {
  FileManner manner{&settings.zone, settings.dates, settings.decimal, 0, {}, {}};
  for (const Settings::Files& said : settings.files) {
    if (!fits_pattern(said.pattern, file)) continue;
    if (said.zone) manner.zone = &*said.zone;
    manner.dates = said.dates.value_or(manner.dates);
    manner.decimal = said.decimal.value_or(manner.decimal);
    manner.heading_line = said.heading.value_or(manner.heading_line);
    manner.sheet = said.sheet.value_or(manner.sheet);
    if (said.ignored_rows) manner.ignored = IgnoredRows(*said.ignored_rows);
  }
  return manner;
}

Diagnostics idle_patterns(const Settings& settings, const std::vector<std::string>& files) {
  Diagnostics idle;
  for (const Settings::Files& said : settings.files) {
    const auto fits = [&said](const std::string& file) { return fits_pattern(said.pattern, file); };
    if (std::none_of(files.begin(), files.end(), fits)) {
      idle.push_back(remark("settings/no-such-file", said.place,
                            "no file of the book is called " + in_quotes(said.pattern),
                            "write its path from the book's folder, * for any letters"));
    }
  }
  return idle;
}

}  // namespace driftwarden
