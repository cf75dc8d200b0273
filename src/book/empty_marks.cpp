// SPDX-License-Identifier: MIT
#include "book/empty_marks.hpp"

#include <algorithm>

#include "book/plain_text.hpp"
#include "book/sheet_cell.hpp"
#include "diagnostic/characters.hpp"
#include "diagnostic/letters.hpp"

namespace driftwarden {
namespace {

constexpr std::array<std::string_view, 7> usual_marks{"n/a", "n.a.", "none", "-", "--", "–", "—"};
// Tabs, blanks, the first bytes of those of Unicode, and of a sheet's faulty cell.
constexpr std::array<char, 6> always_looked_at{' ', '\t', '\xC2', '\xE2', '\xE3', fault_mark};

char capital(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

}  // namespace

std::span<const std::string_view> EmptyMarks::usual() { return usual_marks; }

EmptyMarks::EmptyMarks() : EmptyMarks(std::vector<std::string>(usual_marks.begin(), usual_marks.end())) {}

EmptyMarks::EmptyMarks(std::span<const std::string> marks) {
  const auto look_at = [this](char c) { beginnings_[static_cast<unsigned char>(c)] = true; };
  std::for_each(always_looked_at.begin(), always_looked_at.end(), look_at);
  for (const std::string& mark : marks) {
    if (mark.empty()) continue;
    marks_.push_back(in_small_letters(mark));
    longest_ = std::max(longest_, mark.size());
    look_at(marks_.back().front());
    look_at(capital(marks_.back().front()));
  }
}

bool EmptyMarks::hold(std::string_view text) const {
  if (text.empty() || text.size() > longest_) return false;
  const std::string small = in_small_letters(text);
  return std::find(marks_.begin(), marks_.end(), small) != marks_.end();
}

bool has_wide_blank(std::string_view text) {
  if (is_all_ascii(text)) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (wide_blank_at(text.substr(i)) > 0) return true;
  }
  return false;
}

std::string with_plain_blanks(std::string_view text) {
  std::string plain;
  while (!text.empty()) {
    const std::size_t size = wide_blank_at(text);
    plain += size > 0 ? ' ' : text.front();
    text.remove_prefix(size > 0 ? size : 1);
  }
  return plain;
}

}  // namespace driftwarden
