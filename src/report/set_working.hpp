// SPDX-License-Identifier: MIT
#pragma once

#include <string>

#include "verdict/sample_judge.hpp"

namespace driftwarden {

// A flow as workings print it: five decimals of a L/min, enough to redo every step.
std::string flow_text(double l_min);

// Which practice was followed, and why: "Practice drift_base = post, by the book: … [book.toml:9:1]"; "" where nobody
// chose one.
std::string practice_text(const Screening& screening, std::string_view key);

// The working of a set: calibrator, certificate with its errors, every reading with its corrections, the figures.
// `next_step`: where among the sample's steps those of the set are looked for first; then where the next set's begin.
std::string set_working(const Screening& screening, const SampleResult& result, const ReadingSet& set,
                        std::size_t& next_step);

}  // namespace driftwarden
