// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "command/options.hpp"

namespace driftwarden {

// A manual page in roff (man(7)), from the same texts as a command's help: of the program (driftwarden.1), or of one of
// its commands (driftwarden-screen.1). `app` is the program.
std::string manual_page(const CLI::App& app, const CLI::App& of, const std::string& version);

// Writes all of them into a folder that is there. Faults told: output/unwritable.
int run_manual(const CLI::App& app, const ManualOptions& options, Surroundings& surroundings);

}  // namespace driftwarden
