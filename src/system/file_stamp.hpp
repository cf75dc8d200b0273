// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>

namespace driftwarden {

// Which file it is, how large, and when it was last written to.
struct FileStamp {
  std::uint64_t device = 0;
  std::uint64_t number = 0;
  std::uint64_t size = 0;
  std::int64_t written_ns = 0;
  std::int64_t changed_ns = 0;

  friend bool operator==(const FileStamp&, const FileStamp&) = default;
};

// Nothing where there is no such file.
std::optional<FileStamp> stamp_of(const std::filesystem::path& path);

}  // namespace driftwarden
