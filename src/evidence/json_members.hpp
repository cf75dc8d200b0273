// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace driftwarden {

// A figure, word or text of a JSON document, as it may be shown.
struct JsonMember {
  std::string text;
  bool is_text = false;  // and not a figure, true, false or null
  friend bool operator==(const JsonMember&, const JsonMember&) = default;
};

// All of a document's, by path: "samples[3].flow_l_min". However deep it is, no stack grows with it.
using JsonMembers = std::map<std::string, JsonMember>;

// Nothing where the text is no JSON, or has a member twice: readers would disagree about which of them counts.
std::optional<JsonMembers> json_members(std::string_view text);

}  // namespace driftwarden
