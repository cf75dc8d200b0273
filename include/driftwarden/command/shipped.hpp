// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>

namespace driftwarden {

// The folder that holds rules/ and plots/: as installed beside the program (../share/driftwarden), else where the
// program was built.
std::filesystem::path shipped_folder();

std::string program_version();

}  // namespace driftwarden
