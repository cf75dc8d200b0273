// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace driftwarden {

// The words of an enumeration as a pack writes them, in the order of its enumerators. Specialised beside each of them.
template <class E>
std::span<const std::string_view> words();

template <class E>
std::string_view word_of(E value) {
  return words<E>()[static_cast<std::size_t>(value)];
}

// Empty: no such word.
template <class E>
std::optional<E> named(std::string_view word) {
  const std::span<const std::string_view> all = words<E>();
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i] == word) return static_cast<E>(i);
  }
  return std::nullopt;
}

}  // namespace driftwarden
