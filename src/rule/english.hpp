// SPDX-License-Identifier: MIT
#pragma once

#include "rule/texts.hpp"

namespace driftwarden {

// The sentences of findings in English. Another language is a second table like this one (docs/adr/0018).
extern const Texts english;

}  // namespace driftwarden
