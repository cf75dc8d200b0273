// SPDX-License-Identifier: MIT
#pragma once

#include "command/command_tree.hpp"

namespace driftwarden {

// What goes out and comes back: field sheets, labels, forms, rows that are received, kits.
void add_field_commands(CLI::App& app, CommandOptions& options, Surroundings& surroundings, Run& run);

}  // namespace driftwarden
