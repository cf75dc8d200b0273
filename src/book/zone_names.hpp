// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace driftwarden {

// The zone names that a folder of compiled zone files lists (tzdata.zi, zone1970.tab, zone.tab); sorted, each once.
std::vector<std::string> listed_zone_names(const std::string& folder);

// The name nearest to a mistyped one; a bare place ("Denver") is looked for in the last part of the names. "": none.
std::string nearest_zone_name(std::string_view word, const std::vector<std::string>& names);

// Whether the text has the form of a zone's name: relative, no "." or ".." part, only letters, digits, + - _ and /.
bool is_zone_name(std::string_view text);

}  // namespace driftwarden
