// SPDX-License-Identifier: MIT
#include "system/file_stamp.hpp"

#include <sys/stat.h>

namespace driftwarden {
namespace {

std::int64_t nanoseconds(const timespec& time) { return std::int64_t{time.tv_sec} * 1'000'000'000 + time.tv_nsec; }

}  // namespace

std::optional<FileStamp> stamp_of(const std::filesystem::path& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) return std::nullopt;
  return FileStamp{status.st_dev, status.st_ino, static_cast<std::uint64_t>(status.st_size),
                   nanoseconds(status.st_mtim), nanoseconds(status.st_ctim)};
}

}  // namespace driftwarden
