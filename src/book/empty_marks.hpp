// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace driftwarden {

// What people write into a cell for which there is nothing: "n/a", "-". Capitals don't matter.
class EmptyMarks {
 public:
  // Those of a book that says nothing else.
  static std::span<const std::string_view> usual();

  EmptyMarks();  // the usual ones
  explicit EmptyMarks(std::span<const std::string> marks);

  bool hold(std::string_view text) const;
  // Whether a text with this byte in front has to be looked at: it may be a mark, a blank, or the fault of a sheet's
  // cell.
  bool may_begin(char c) const { return beginnings_[static_cast<unsigned char>(c)]; }

 private:
  std::array<bool, 256> beginnings_{};
  std::vector<std::string> marks_;  // in small letters
  std::size_t longest_ = 0;
};

bool has_wide_blank(std::string_view text);
// With each blank of Unicode as a blank of ASCII.
std::string with_plain_blanks(std::string_view text);

}  // namespace driftwarden
