// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace driftwarden {

// Rows of a file that its owner says are none of the table: by line, "97" or "3-5", or by what stands first in them,
// "Total*".
class IgnoredRows {
 public:
  IgnoredRows() = default;
  explicit IgnoredRows(const std::vector<std::string>& written);

  bool empty() const { return lines_.empty() && beginnings_.empty(); }
  bool go_by_line() const { return !lines_.empty(); }
  // Whether a row is one of them, by its line and the first cell of it with anything in it.
  bool hold(std::uint32_t line, std::string_view first_text) const;

 private:
  std::vector<std::pair<std::uint32_t, std::uint32_t>> lines_;  // from, to
  std::vector<std::string> beginnings_;
};

}  // namespace driftwarden
