// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/screening.hpp"

namespace driftwarden {

// The chain of each set of a sample as lines of text, from its calibrator through the certificates and standards to
// where the book's knowledge ends; each gap by its name. Sets with one and the same chain share it. "" without sets.
std::string traceability_text(const Screening& screening, const SampleAssessment& figures, std::size_t width);

}  // namespace driftwarden
