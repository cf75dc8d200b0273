// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/outlook.hpp"

namespace driftwarden {

// What `ahead` tells of the pump and the calibrator of a sample, for people: what speaks against them, how far the flow
// may drift, and how well the volume will be known; "" where no pump is said.
std::string flow_section(const Book& book, const SampleOutlook& outlook);

}  // namespace driftwarden
