// SPDX-License-Identifier: MIT
#include "evidence/altered_packs.hpp"

#include <algorithm>

#include "diagnostic/characters.hpp"
#include "diagnostic/diagnostic.hpp"
#include "rule/pack.hpp"

namespace driftwarden {
namespace {

constexpr std::size_t most_lines = 10;

std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    lines.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

// What is left between the lines that both begin with and those that both end with.
std::vector<std::string> differing_lines(std::string_view text, std::string_view shipped) {
  const std::vector<std::string_view> here = lines_of(text);
  const std::vector<std::string_view> there = lines_of(shipped);
  const std::size_t shorter = std::min(here.size(), there.size());
  std::size_t head = 0;
  while (head < shorter && here[head] == there[head]) ++head;
  std::size_t tail = 0;
  while (tail < shorter - head && here[here.size() - 1 - tail] == there[there.size() - 1 - tail]) ++tail;
  const auto at = [&](const std::vector<std::string_view>& lines, std::size_t i) {
    return i + tail < lines.size() ? in_quotes(lines[i]) : std::string("nothing");
  };
  std::vector<std::string> differences;
  const std::size_t end = std::max(here.size(), there.size()) - tail;
  for (std::size_t i = head; i < end; ++i) {
    if (i < shorter - tail && here[i] == there[i]) continue;
    if (differences.size() == most_lines) {
      differences.emplace_back("and more");
      break;
    }
    differences.push_back("line " + std::to_string(i + 1) + ": " + at(here, i) + ", shipped: " + at(there, i));
  }
  if (differences.empty()) differences.emplace_back("line ends or blanks");
  return differences;
}

}  // namespace

std::string to_text(const AlteredPack& pack) {
  const auto shown = [](const std::string& text) { return shows_itself(text) ? text : in_quotes(text); };
  return "the rule pack " + shown(pack.name) + ", edition " + shown(pack.edition) +
         ", is not the one shipped under that name";
}

std::vector<AlteredPack> altered_packs(const std::vector<std::string>& texts, std::span<const BuiltInPack> shipped) {
  std::vector<AlteredPack> altered;
  for (const std::string& text : texts) {
    const Result<Pack> pack = parse_pack(text, "");
    if (!pack) continue;  // nothing is judged by it
    for (const BuiltInPack& known : shipped) {
      if (known.name != pack->name || known.text == text) continue;
      const Result<Pack> original = parse_pack(known.text, "");
      if (original && original->edition == pack->edition)
        altered.push_back({pack->name, pack->edition, differing_lines(text, known.text)});
    }
  }
  return altered;
}

}  // namespace driftwarden
