// SPDX-License-Identifier: MIT
#include "book/zone_names.hpp"

#include <algorithm>
#include <fstream>

#include "diagnostic/suggestion.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t longest_zone_name = 100;

// The field of a line with that number (from 0), or "".
std::string_view field_of(std::string_view line, char separator, int number) {
  for (; number > 0; --number) {
    const auto end = line.find(separator);
    if (end == std::string_view::npos) return {};
    line.remove_prefix(end + 1);
  }
  return line.substr(0, line.find(separator));
}

// The name that a line of the zone source defines: "Z name …" a zone, "L target name" a link.
std::string_view name_in_source_line(std::string_view line) {
  if (line.substr(0, 2) == "Z ") return field_of(line, ' ', 1);
  if (line.substr(0, 2) == "L ") return field_of(line, ' ', 2);
  return {};
}

std::string_view name_in_table_line(std::string_view line) {
  return line.empty() || line.front() == '#' ? std::string_view() : field_of(line, '\t', 2);
}

template <class NameInLine>
void add_names(const std::string& path, NameInLine name_in_line, std::vector<std::string>& names) {
  std::ifstream file(path, std::ios::binary);
  for (std::string line; std::getline(file, line);) {
    const std::string_view name = name_in_line(line);
    if (is_zone_name(name)) names.emplace_back(name);
  }
}

bool is_zone_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '+' || c == '-' ||
         c == '_' || c == '/';
}

std::string_view last_part(std::string_view name) { return name.substr(name.rfind('/') + 1); }

}  // namespace

std::vector<std::string> listed_zone_names(const std::string& folder) {
  std::vector<std::string> names;
  add_names(folder + "/tzdata.zi", name_in_source_line, names);
  add_names(folder + "/zone1970.tab", name_in_table_line, names);
  add_names(folder + "/zone.tab", name_in_table_line, names);
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

std::string nearest_zone_name(std::string_view word, const std::vector<std::string>& names) {
  if (word.size() > longest_zone_name) return {};
  if (auto name = nearest(word, names); !name.empty()) return name;
  std::vector<std::string_view> places(names.size());
  std::transform(names.begin(), names.end(), places.begin(), last_part);
  const auto place = nearest(last_part(word), places);
  const auto found = std::find(places.begin(), places.end(), std::string_view(place));
  return place.empty() ? std::string() : names[static_cast<std::size_t>(found - places.begin())];
}

bool is_zone_name(std::string_view text) {
  const bool good_letters =
      !text.empty() && text.size() <= longest_zone_name && std::all_of(text.begin(), text.end(), is_zone_letter);
  const bool has_empty_part = text.find("//") != std::string_view::npos || (good_letters && text.back() == '/');
  return good_letters && text.front() != '/' && !has_empty_part;
}

}  // namespace driftwarden
