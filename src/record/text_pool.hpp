// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <unordered_map>

namespace driftwarden {

// Texts that occur again and again (batches, methods, notes), each kept once and named by a small number.
// Number 0 is the empty text.
using TextId = std::uint32_t;

class TextPool {
 public:
  TextPool() { id_of(""); }
  TextPool(const TextPool&) = delete;
  TextPool& operator=(const TextPool&) = delete;
  TextPool(TextPool&&) = default;
  TextPool& operator=(TextPool&&) = default;

  TextId id_of(std::string_view text);
  // The number of a text already known, or `unknown`.
  TextId find(std::string_view text) const;
  const std::string& text(TextId id) const { return texts_[id]; }
  std::size_t size() const { return texts_.size(); }

  static constexpr TextId unknown = UINT32_MAX;

 private:
  std::deque<std::string> texts_;  // a deque: the views in ids_ stay where they are
  std::unordered_map<std::string_view, TextId> ids_;
};

}  // namespace driftwarden
