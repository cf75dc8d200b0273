// SPDX-License-Identifier: MIT
#include "outside/scratch_place.hpp"

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

ScratchPlace::ScratchPlace() : ScratchPlace(temporary_files()) {}

ScratchPlace::ScratchPlace(const std::filesystem::path& inside) : inside_(std::filesystem::absolute(inside)) {
  reason_ = unfinished_.make_folder(inside_ / (std::string(beginning) + std::string(6, 'X')));
}

Diagnostic ScratchPlace::fault() const {
  return error("output/no-scratch", {inside_.string(), 0, 0},
               "nothing can be written to the folder for temporary files: " + std::generic_category().message(reason_),
               "set TMPDIR to a folder that can be written to, or unset it: then it is /tmp");
}

}  // namespace driftwarden
