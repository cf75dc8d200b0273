// SPDX-License-Identifier: MIT
#include "command/shipped.hpp"

#include <fstream>
#include <system_error>

namespace driftwarden {

std::filesystem::path shipped_folder() {
  namespace fs = std::filesystem;
  std::error_code ignored;
  const fs::path folder = fs::read_symlink("/proc/self/exe", ignored).parent_path();
  // A program that lies where it was built has a file beside it that names the sources; installed ones have none.
  for (const fs::path& built : {folder, folder.parent_path()}) {
    std::ifstream file(built / "driftwarden.sources");
    if (std::string sources; std::getline(file, sources)) return sources;
  }
  return (folder / DRIFTWARDEN_SHARE_FROM_PROGRAM).lexically_normal();
}

std::string program_version() { return DRIFTWARDEN_VERSION; }

}  // namespace driftwarden
