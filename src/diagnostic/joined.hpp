// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace driftwarden {

// The texts of things one behind the other, with a separator between two.
template <class Things, class TextOf = std::identity>
std::string joined(const Things& things, std::string_view separator, TextOf text_of = {}) {
  std::string all;
  bool is_first = true;
  for (const auto& thing : things) {
    if (!is_first) all += separator;
    all += std::invoke(text_of, thing);
    is_first = false;
  }
  return all;
}

}  // namespace driftwarden
