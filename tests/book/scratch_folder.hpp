// SPDX-License-Identifier: MIT
#pragma once

#include <stdlib.h>

#include <filesystem>
#include <stdexcept>
#include <string>

namespace driftwarden {

// A folder of a test's own, gone when the test is.
class ScratchFolder {
 public:
  ScratchFolder() {
    std::string name = (std::filesystem::temp_directory_path() / ("driftwarden-test-" + std::string(6, 'X'))).string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for the test");
    path_ = name;
  }
  ~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

// An environment variable for as long as the object lives.
class EnvironmentVariable {
 public:
  EnvironmentVariable(std::string name, const std::string& value) : name_(std::move(name)) {
    if (const char* before = ::getenv(name_.c_str())) before_ = before;
    had_one_ = ::getenv(name_.c_str()) != nullptr;
    ::setenv(name_.c_str(), value.c_str(), 1);
  }
  ~EnvironmentVariable() { had_one_ ? ::setenv(name_.c_str(), before_.c_str(), 1) : ::unsetenv(name_.c_str()); }
  EnvironmentVariable(const EnvironmentVariable&) = delete;
  EnvironmentVariable& operator=(const EnvironmentVariable&) = delete;

 private:
  std::string name_;
  std::string before_;
  bool had_one_ = false;
};

}  // namespace driftwarden
