// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "diagnostic/result.hpp"

namespace driftwarden {

// A file's bytes, read into memory: whatever becomes of the file afterwards, they stay. At least `padding` zero bytes
// can be read after the last one, so that a scan may look at whole machine words.
class HeldFile {
 public:
  static constexpr std::size_t padding = 64;

  // As many bytes as it has when it is opened. Fault "file/unreadable" with the system's reason, at `shown_name`.
  static Result<HeldFile> open(const std::filesystem::path& path, const std::string& shown_name);

  std::string_view bytes() const { return {data_.get(), size_}; }
  // Of a file that has grown, the bytes it had before.
  void keep_first(std::size_t count);

 private:
  HeldFile() = default;

  std::unique_ptr<char[]> data_;
  std::size_t size_ = 0;
};

}  // namespace driftwarden
