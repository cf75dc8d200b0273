// SPDX-License-Identifier: MIT
#include "record/decision.hpp"

namespace driftwarden {

std::string_view to_text(Ruling ruling) { return ruling == Ruling::overrule ? "overrule" : "uphold"; }

}  // namespace driftwarden
