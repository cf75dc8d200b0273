// SPDX-License-Identifier: MIT
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "command/options.hpp"

namespace driftwarden {

// Options that many commands have.
void add_paper(CLI::App* command, std::string& paper);
void add_threads(CLI::App* command, unsigned& threads, const char* otherwise = "one for each processor");
// The book, where one may stand in it, and the threads to read it with.
void add_book(CLI::App* command, BookOptions& options);
void add_as_of(CLI::App* command, BookOptions& options);

}  // namespace driftwarden
