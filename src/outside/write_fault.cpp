// SPDX-License-Identifier: MIT
#include "outside/write_fault.hpp"

#include <system_error>

namespace driftwarden {

Diagnostic unwritable(const std::filesystem::path& place, int reason) {
  return error("output/unwritable", {place.string(), 0, 0},
               "the results could not be written" + (reason == 0 ? "" : ": " + std::generic_category().message(reason)),
               "check the folder, its rights and the room on the disk");
}

Diagnostic already_there(const std::filesystem::path& place) {
  return error("output/already-there", {place.string(), 0, 0}, "there is something of this name already",
               "a folder is never written over anything; name another");
}

}  // namespace driftwarden
