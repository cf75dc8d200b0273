// SPDX-License-Identifier: MIT
#include "record/assignment.hpp"

namespace driftwarden {

std::string_view to_text(ActionKind kind) { return action_kind_words[static_cast<std::size_t>(kind)]; }

std::string_view to_text(ActionSubject of) { return action_subject_words[static_cast<std::size_t>(of)]; }

}  // namespace driftwarden
