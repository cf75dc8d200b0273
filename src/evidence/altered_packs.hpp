// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "evidence/shipped_texts.hpp"

namespace driftwarden {

// A rule pack under the name and edition of a shipped one that is not the shipped one.
struct AlteredPack {
  std::string name;
  std::string edition;
  std::vector<std::string> differences;  // "line 31: 'within = "50 %"', shipped: 'within = "5 %"'"
};

// "the rule pack common-practice, edition 2026-11-25, is not the one shipped under that name"
std::string to_text(const AlteredPack& pack);

// Those among the texts of packs. A pack of another name or edition is another pack: of it nothing is said.
std::vector<AlteredPack> altered_packs(const std::vector<std::string>& texts, std::span<const BuiltInPack> shipped);

}  // namespace driftwarden
