// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

// The heading line of `screen --format csv`, with its line end.
std::string_view screen_csv_headings();

// One sample as a line of it.
void append_screen_csv(std::string& out, const Screening& screening, const SampleResult& result);

}  // namespace driftwarden
