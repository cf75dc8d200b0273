// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>

#include "diagnostic/diagnostic.hpp"
#include "outside/unfinished.hpp"

namespace driftwarden {

// A new empty folder, gone with what is in it at the end of its life. Where none can be made the path is empty.
class ScratchPlace {
 public:
  static constexpr const char* beginning = ".driftwarden-";  // of its name

  ScratchPlace();  // among the system's temporary files; `fault` says why there is none
  explicit ScratchPlace(const std::filesystem::path& inside);

  const std::filesystem::path& path() const { return unfinished_.path(); }
  int reason() const { return reason_; }  // an errno, where there is none
  Diagnostic fault() const;               // output/no-scratch

 private:
  std::filesystem::path inside_;
  int reason_ = 0;
  Unfinished unfinished_;
};

}  // namespace driftwarden
