// SPDX-License-Identifier: MIT
#include "assessment/practice.hpp"

namespace driftwarden {

std::string_view to_text(FlowForVolume flow) { return flow_for_volume_words[static_cast<std::size_t>(flow)]; }

std::string_view to_text(ConcentrationVolume volume) {
  return concentration_volume_words[static_cast<std::size_t>(volume)];
}

std::string_view to_text(DriftBase base) { return drift_base_words[static_cast<std::size_t>(base)]; }

}  // namespace driftwarden
