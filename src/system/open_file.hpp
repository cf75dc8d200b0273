// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>

#include "diagnostic/result.hpp"

namespace driftwarden {

// A regular file, open for reading.
class OpenFile {
 public:
  explicit OpenFile(const std::filesystem::path& path);
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile();

  int reason() const { return reason_; }  // why it can't be read, an errno; 0: it can
  std::size_t size() const { return size_; }
  // The bytes from `from` on, `count` of them; how many there were to read. Fewer: the file ends there, or reason().
  std::size_t read(std::size_t from, std::size_t count, char* room);

 private:
  int number_ = -1;
  int reason_ = 0;
  std::size_t size_ = 0;
};

// "file/unreadable", at the name to show.
Diagnostic unreadable(const std::string& shown_name, int reason);

}  // namespace driftwarden
