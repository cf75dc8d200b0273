// SPDX-License-Identifier: MIT
#include "command/scratch_place.hpp"

#include <unistd.h>

#include <cstdlib>
#include <string>
#include <system_error>

namespace driftwarden {

ScratchPlace::ScratchPlace() {
  std::error_code failure;
  std::string name = (std::filesystem::temp_directory_path(failure) / "driftwarden-XXXXXX").string();
  if (failure) return;
  if (mkdtemp(name.data()) != nullptr) path_ = name;
}

ScratchPlace::~ScratchPlace() {
  std::error_code ignored;
  if (!path_.empty()) std::filesystem::remove_all(path_, ignored);
}

}  // namespace driftwarden
