// SPDX-License-Identifier: MIT
#include "driftwarden/command/shipped.hpp"

#include <system_error>

namespace driftwarden {

std::filesystem::path shipped_folder() {
  namespace fs = std::filesystem;
  std::error_code ignored;
  const fs::path program = fs::read_symlink("/proc/self/exe", ignored);
  const fs::path beside = program.parent_path().parent_path() / "share" / "driftwarden";
  if (!program.empty() && fs::exists(beside / "rules", ignored)) return beside;
  if (fs::exists(fs::path(DRIFTWARDEN_SOURCE_SHARE) / "rules", ignored)) return DRIFTWARDEN_SOURCE_SHARE;
  return DRIFTWARDEN_INSTALLED_SHARE;
}

std::string program_version() { return DRIFTWARDEN_VERSION; }

}  // namespace driftwarden
