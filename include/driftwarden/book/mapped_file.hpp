// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

#include "driftwarden/diagnostic/result.hpp"

namespace driftwarden {

// A file's bytes, mapped for reading. At least `padding` zero bytes can be read after the last one, so that a scan may
// look at whole machine words.
class MappedFile {
 public:
  static constexpr std::size_t padding = 64;

  // Fault "file/unreadable" with the system's reason, at `shown_name`.
  static Result<MappedFile> open(const std::filesystem::path& path, const std::string& shown_name);

  MappedFile(const MappedFile&) = delete;
  MappedFile& operator=(const MappedFile&) = delete;
  MappedFile(MappedFile&& other) noexcept;
  MappedFile& operator=(MappedFile&& other) noexcept;
  ~MappedFile();

  std::string_view bytes() const { return {data_, size_}; }
  // These bytes will be read soon, or are not needed any more (they stay readable): keeps few pages in memory at once.
  void want(std::size_t from, std::size_t to) const;
  void leave(std::size_t from, std::size_t to) const;

 private:
  MappedFile() = default;

  const char* data_ = nullptr;
  std::size_t size_ = 0;
  std::size_t mapped_ = 0;
};

}  // namespace driftwarden
