// SPDX-License-Identifier: MIT
#include "evidence/bag_name.hpp"

#include "diagnostic/characters.hpp"
#include "diagnostic/diagnostic.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t longest_name = 1000;  // bytes, as of a part of it
constexpr std::size_t longest_part = 255;

std::string fault_of_part(std::string_view part) {
  if (part.empty()) return "has an empty part";
  if (part == "..") return "leads out of its folder";
  if (part == ".") return "has a part '.'";
  if (part.size() > longest_part) return "has a part of more than 255 bytes";
  if (part.front() == ' ' || part.back() == ' ' || part.back() == '.')
    return "has a part that begins or ends with a blank, or ends with '.'";
  if (part.front() == '~') return "has a part that begins with '~'";
  return "";
}

}  // namespace

std::string fault_of_bag_name(std::string_view name) {
  if (name.empty()) return "is empty";
  if (name.size() > longest_name) return "is longer than 1000 bytes";
  if (!shows_itself(name)) return "holds control characters or bytes that are no UTF-8";
  if (name.front() == '/') return "begins at the root";
  const std::size_t odd = name.find_first_of("%\\:");
  if (odd != std::string_view::npos) return "holds " + in_quotes(name.substr(odd, 1));
  for (std::string_view rest = name;; rest.remove_prefix(rest.find('/') + 1)) {
    std::string fault = fault_of_part(rest.substr(0, rest.find('/')));
    if (!fault.empty() || rest.find('/') == std::string_view::npos) return fault;
  }
}

}  // namespace driftwarden
