// SPDX-License-Identifier: MIT
#pragma once

#include <cstring>
#include <memory>
#include <string_view>

#include "system/held_file.hpp"

namespace driftwarden {

// A text with readable bytes behind its end, as the scanner needs them, and not one more: a sanitizer sees it read on.
// What stands there would be taken for a cell's end or a quote, if it were looked at.
class PaddedText {
 public:
  explicit PaddedText(std::string_view text) : bytes_(new char[text.size() + HeldFile::padding]), size_(text.size()) {
    if (!text.empty()) std::memcpy(bytes_.get(), text.data(), text.size());
    constexpr std::string_view traps = ",\"\n;\t";
    for (std::size_t i = 0; i < HeldFile::padding; ++i) bytes_[size_ + i] = traps[i % traps.size()];
  }
  operator std::string_view() const { return {bytes_.get(), size_}; }  // NOLINT: meant to convert

 private:
  std::unique_ptr<char[]> bytes_;
  std::size_t size_;
};

}  // namespace driftwarden
