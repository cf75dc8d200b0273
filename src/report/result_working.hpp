// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

// "0.526 mg", "41.5 fibres", "0.5928 mg/m3"; four significant digits.
std::string amount_text(double amount, bool is_of_fibres);
std::string concentration_text(double concentration, bool is_of_fibres);

// Whether a concentration that is formed of a sample stands: it is not void.
bool stands(const SampleResult& result);

// The working of every result of a sample: what was found, which blanks were taken off, the concentration, and how well
// each is known. Lines of at most `width` characters.
std::string result_working(const Screening& screening, const SampleResult& result, std::size_t width);

}  // namespace driftwarden
