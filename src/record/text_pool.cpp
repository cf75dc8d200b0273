// SPDX-License-Identifier: MIT
#include "record/text_pool.hpp"

namespace driftwarden {

TextId TextPool::id_of(std::string_view text) {
  const TextId known = find(text);
  if (known != unknown) return known;
  const auto id = static_cast<TextId>(texts_.size());
  ids_.emplace(texts_.emplace_back(text), id);
  return id;
}

TextId TextPool::find(std::string_view text) const {
  const auto found = ids_.find(text);
  return found == ids_.end() ? unknown : found->second;
}

}  // namespace driftwarden
