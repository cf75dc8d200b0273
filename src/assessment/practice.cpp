// SPDX-License-Identifier: MIT
#include "driftwarden/assessment/practice.hpp"

#include <array>

namespace driftwarden {

std::string_view to_text(FlowForVolume flow) {
  constexpr std::array<std::string_view, 4> words{"mean", "lower", "pre", "nominal"};
  return words[static_cast<std::size_t>(flow)];
}

std::string_view to_text(DriftBase base) {
  constexpr std::array<std::string_view, 4> words{"pre", "post", "mean", "nominal"};
  return words[static_cast<std::size_t>(base)];
}

}  // namespace driftwarden
