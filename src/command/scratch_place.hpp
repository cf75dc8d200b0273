// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>

#include "driftwarden/diagnostic/diagnostic.hpp"

namespace driftwarden {

// A new empty folder among the system's temporary files, gone with what is in it at the end of its life. Where none
// can be made the path is empty, and `fault` says why.
class ScratchPlace {
 public:
  ScratchPlace();
  ~ScratchPlace();
  ScratchPlace(const ScratchPlace&) = delete;
  ScratchPlace& operator=(const ScratchPlace&) = delete;

  const std::filesystem::path& path() const { return path_; }
  Diagnostic fault() const;  // output/no-scratch

 private:
  std::filesystem::path among_;
  int reason_ = 0;
  std::filesystem::path path_;
};

}  // namespace driftwarden
