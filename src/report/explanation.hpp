// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "report/paint.hpp"
#include "report/terminal_text.hpp"
#include "verdict/sample_judge.hpp"

namespace driftwarden {

// The whole working of one sample in words and figures, so that a reader can redo it with a pocket calculator: every
// input with its place, every step with its formula, every rule met or not with its source. `result` is from a judge
// that keeps all. On a terminal no line is longer than its columns, where words allow it.
std::string explanation_of(const Screening& screening, const SampleResult& result, Paint paint,
                           std::size_t columns = no_terminal);

}  // namespace driftwarden
