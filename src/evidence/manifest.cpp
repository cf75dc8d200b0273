// SPDX-License-Identifier: MIT
#include "evidence/manifest.hpp"

#include <algorithm>

#include "evidence/bag_name.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t digest_length = 128;
constexpr std::string_view between = "  ";
constexpr std::size_t enough_faults = 20;

bool is_digest(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

Diagnostic bad_line(const Place& place, const std::string& what) {
  return error(
      "evidence/manifest", place, what,
      "a line is the SHA-512 of a file in 128 small hexadecimal digits, two blanks and its name; the lines are "
      "in order of the names");
}

class ManifestReader {
 public:
  explicit ManifestReader(std::string file) : place_{std::move(file), 0, 0} {}

  void line(std::string_view text) {
    ++place_.line;
    if (text.size() < digest_length + between.size() || !is_digest(text.substr(0, digest_length)) ||
        text.substr(digest_length, between.size()) != between) {
      faults.push_back(bad_line(place_, in_quotes(text.substr(0, 40)) + " … is no line of a manifest"));
      return;
    }
    const std::string name(text.substr(digest_length + between.size()));
    const std::string fault = fault_of_bag_name(name);
    if (!fault.empty()) {
      faults.push_back(error("evidence/name", place_, "the name " + in_quotes(name) + " " + fault,
                             "nothing is read under such a name; a package of driftwarden has none"));
    } else if (!manifest.empty() && manifest.rbegin()->first >= name) {
      faults.push_back(bad_line(place_, in_quotes(name) + " is out of order, or there twice"));
    } else {
      manifest.emplace_hint(manifest.end(), name, text.substr(0, digest_length));
    }
  }

  Manifest manifest;
  Diagnostics faults;
  Place place_;
};

}  // namespace

std::string manifest_text(const Manifest& manifest) {
  std::string text;
  for (const auto& [name, digest] : manifest) text += digest + std::string(between) + name + '\n';
  return text;
}

Result<Manifest> parse_manifest(std::string_view text, const std::string& file) {
  ManifestReader reader(file);
  while (!text.empty() && reader.faults.size() < enough_faults) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) {
      ++reader.place_.line;
      reader.faults.push_back(bad_line(reader.place_, "the last line has no line end: the file is cut off"));
      break;
    }
    reader.line(text.substr(0, end));
    text.remove_prefix(end + 1);
  }
  if (!reader.faults.empty()) return reader.faults;
  return std::move(reader.manifest);
}

}  // namespace driftwarden
