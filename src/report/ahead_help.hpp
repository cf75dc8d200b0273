// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

#include "verdict/outlook.hpp"

namespace driftwarden {

// What would help where no volume fits, each by itself: figures to three digits, on the side that still helps.
std::vector<std::string> help_words(const SampleOutlook& outlook);

// The concentration of dust from which on the least volume overloads the medium, "9 mg/m3".
std::string dust_words(const SampleOutlook& outlook);

}  // namespace driftwarden
