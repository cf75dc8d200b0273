// SPDX-License-Identifier: MIT
#include "evidence/bag_info.hpp"

#include <algorithm>

#include "book/stamp_text.hpp"
#include "diagnostic/characters.hpp"
#include "diagnostic/diagnostic.hpp"

namespace driftwarden {

std::string to_text(const PayloadSize& size) { return std::to_string(size.bytes) + "." + std::to_string(size.files); }

std::string bag_info_text(const BagInfo& info, const PayloadSize& payload) {
  const std::string title = shows_itself(info.title) ? info.title : in_quotes(info.title);
  return "Bag-Software-Agent: driftwarden " + info.version + "\nBagging-Date: " + date_text(info.as_of) +
         "\nPayload-Oxum: " + to_text(payload) + "\nExternal-Description: Evidence of air-sampling flow: " + title +
         "\n";
}

std::string_view bag_info_value(std::string_view text, std::string_view label) {
  while (!text.empty()) {
    std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(std::min(line.size() + 1, text.size()));
    if (line.starts_with(label) && line.substr(label.size()).starts_with(": ")) return line.substr(label.size() + 2);
  }
  return "";
}

}  // namespace driftwarden
