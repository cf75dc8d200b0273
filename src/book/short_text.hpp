// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <cstring>
#include <string_view>

namespace driftwarden {

// Whether two texts are the same. As ==, without a call where they have at most 16 bytes, as names mostly do.
[[gnu::always_inline]] inline bool is_same_text(std::string_view a, std::string_view b) {
  const std::size_t size = a.size();
  if (size != b.size()) return false;
  const auto differ = [&](auto word, std::size_t at) {
    auto other = word;
    std::memcpy(&word, a.data() + at, sizeof word);
    std::memcpy(&other, b.data() + at, sizeof other);
    return word ^ other;
  };
  // From the front and from the back: in the middle both may see the same bytes.
  if (size >= 8 && size <= 16) return (differ(std::uint64_t{}, 0) | differ(std::uint64_t{}, size - 8)) == 0;
  if (size >= 4 && size < 8) return (differ(std::uint32_t{}, 0) | differ(std::uint32_t{}, size - 4)) == 0;
  if (size > 16) return a == b;
  return size == 0 || (a[0] == b[0] && a[size / 2] == b[size / 2] && a[size - 1] == b[size - 1]);
}

// The last eight bytes of a text as a number, of a shorter one all of it. Without a copy of a length that the compiler
// can't know: reading back what was just copied byte by byte would make the processor wait.
[[gnu::always_inline]] inline std::uint64_t last_bytes(std::string_view text) {
  const std::size_t size = text.size();
  const auto word_at = [&](auto word, std::size_t at) -> std::uint64_t {
    std::memcpy(&word, text.data() + at, sizeof word);
    return word;
  };
  if (size >= 8) return word_at(std::uint64_t{}, size - 8);
  if (size >= 4) return word_at(std::uint32_t{}, 0) | word_at(std::uint32_t{}, size - 4) << 32U;
  if (size == 0) return 0;
  return word_at(std::uint8_t{}, 0) | word_at(std::uint8_t{}, size / 2) << 8U |
         word_at(std::uint8_t{}, size - 1) << 16U;
}

}  // namespace driftwarden
