// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <vector>

#include "command/opened_book.hpp"
#include "command/options.hpp"
#include "verdict/air_ahead.hpp"
#include "verdict/rules_ahead.hpp"

namespace driftwarden {

// What is said on the command line of every sample that is asked for, read.
struct AheadSaid {
  double target_mg_m3 = missing;
  double expected_mg_m3 = missing;
  double flow_l_min = missing;
  double minutes = missing;
  SaidAir air;
};

// Nothing (told) where an amount can't be read, or is none that a table of the book may state.
std::optional<AheadSaid> what_was_said(const AheadOptions& options, Surroundings& surroundings);

// No sampling time is longer than a time that samples.csv may state.
double longest_sampling_min();

// Whether the book has the sampler, instruments, method and analysis that are named; told where not.
bool are_known(const OpenedBook& opened, const AheadOptions& options, Surroundings& surroundings);

// The samples that are asked for: those of a batch, one of the plan, or one that only the command line describes.
// Nothing (told) where there is no such, or it is a blank.
std::optional<std::vector<SampleAhead>> samples_asked(const OpenedBook& opened, const AheadOptions& options,
                                                      Surroundings& surroundings);

// Puts what the command line says into a sample: it wins over the plan.
void put_said(const OpenedBook& opened, const AheadOptions& options, const AheadSaid& said, SampleAhead& sample);

}  // namespace driftwarden
