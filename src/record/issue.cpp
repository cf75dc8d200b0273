// SPDX-License-Identifier: MIT
#include "record/issue.hpp"

namespace driftwarden {

std::string_view to_text(CameBack how) {
  return how == CameBack::unsaid ? "" : came_back_words[static_cast<std::size_t>(how) - 1];
}

}  // namespace driftwarden
