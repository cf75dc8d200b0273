// SPDX-License-Identifier: MIT
#include "record/sample.hpp"

namespace driftwarden {

std::string_view to_text(SampleKind kind) { return sample_kind_words[static_cast<std::size_t>(kind)]; }

}  // namespace driftwarden
