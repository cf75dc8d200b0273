// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

#include "command/options.hpp"

namespace driftwarden {

// How the last of some words on a command line may go on: commands, options, what an option takes, and, where a book is
// named before, its batches, samples, instruments and rules. Nothing where a file or folder is asked for: shells know
// those. A book that can't be read has no names, and nothing is told of it.
std::vector<std::string> completions_of(const CLI::App& app, const std::vector<std::string>& words,
                                        const Surroundings& surroundings);

int run_complete(const CLI::App& app, const CompleteOptions& options, Surroundings& surroundings);

}  // namespace driftwarden
