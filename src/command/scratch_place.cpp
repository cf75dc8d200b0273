// SPDX-License-Identifier: MIT
#include "command/scratch_place.hpp"

#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <string>
#include <system_error>

namespace driftwarden {

namespace {

// The folder that the surroundings name; whether it is one is seen when something is made there.
std::filesystem::path temporary_files() {
  const char* named = std::getenv("TMPDIR");
  return named == nullptr || *named == '\0' ? "/tmp" : named;
}

}  // namespace

ScratchPlace::ScratchPlace() : among_(std::filesystem::absolute(temporary_files())) {
  std::string name = (among_ / "driftwarden-XXXXXX").string();
  if (mkdtemp(name.data()) != nullptr) {
    path_ = name;
  } else {
    reason_ = errno;
  }
}

Diagnostic ScratchPlace::fault() const {
  return error("output/no-scratch", {among_.string(), 0, 0},
               "nothing can be written to the folder for temporary files: " + std::generic_category().message(reason_),
               "set TMPDIR to a folder that can be written to, or unset it: then it is /tmp");
}

ScratchPlace::~ScratchPlace() {
  std::error_code ignored;
  if (!path_.empty()) std::filesystem::remove_all(path_, ignored);
}

}  // namespace driftwarden
