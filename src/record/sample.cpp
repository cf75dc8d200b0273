// SPDX-License-Identifier: MIT
#include "record/sample.hpp"

namespace driftwarden {

std::string_view to_text(SampleKind kind) { return kind == SampleKind::blank ? "blank" : "sample"; }

}  // namespace driftwarden
