// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

// `screen --format sarif`: findings and data faults as a log of SARIF 2.1.0 (OASIS standard, 27 March 2020), for
// programs that show such logs beside the files. In pieces, so that it can be streamed: all up to the results; each
// result with a comma before it (the first one's is left out by who writes); all behind them.
// Level (clause 3.27.10): void is an error; undecided and qualified are warnings; a note is a note. A fault of the
// records is an error, a remark a note. A finding that was overruled is suppressed (3.35), with who and why.
std::string sarif_head(const Screening& screening, std::string_view version);
void append_sarif(std::string& out, const Screening& screening, const SampleResult& result);
void append_sarif(std::string& out, const Diagnostic& problem);
std::string sarif_tail();

}  // namespace driftwarden
