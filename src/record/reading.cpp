// SPDX-License-Identifier: MIT
#include "record/reading.hpp"

namespace driftwarden {

std::string_view to_text(Stage stage) { return stage_words[static_cast<std::size_t>(stage)]; }

}  // namespace driftwarden
