// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>

#include "diagnostic/result.hpp"
#include "outside/unfinished.hpp"

namespace driftwarden {

// A folder being written beside the place it is to have, as NAME.unfinished-123; removed with everything in it unless
// it was put there. Who is killed leaves it behind.
class WholeFolder {
 public:
  // Makes the folders above it, too. Faults: output/already-there, output/unwritable.
  static Result<WholeFolder> beside(const std::filesystem::path& place);

  const std::filesystem::path& path() const { return unfinished_.path(); }
  // Everything in it on the disk, then under its own name, in one step and never over anything. Faults as above.
  Diagnostics put_in_place();

 private:
  WholeFolder(std::filesystem::path place, Unfinished unfinished)
      : place_(std::move(place)), unfinished_(std::move(unfinished)) {}

  std::filesystem::path place_;
  Unfinished unfinished_;
};

}  // namespace driftwarden
