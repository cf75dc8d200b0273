// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>

namespace driftwarden {

// The folder that holds rules/ and plots/: where the program was installed to, wherever that was moved
// (../share/driftwarden from its own folder), or the sources it was built from, if it lies in its build folder.
std::filesystem::path shipped_folder();

std::string program_version();

}  // namespace driftwarden
