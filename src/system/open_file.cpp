// SPDX-License-Identifier: MIT
#include "system/open_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <system_error>

namespace driftwarden {

// Not blocking: a pipe in a file's place is refused, not waited for.
OpenFile::OpenFile(const std::filesystem::path& path)
    : number_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK)) {
  struct stat status {};
  if (number_ < 0 || ::fstat(number_, &status) != 0) {
    reason_ = errno;
  } else if (!S_ISREG(status.st_mode)) {
    reason_ = S_ISDIR(status.st_mode) ? EISDIR : EINVAL;
  } else {
    size_ = static_cast<std::size_t>(status.st_size);
  }
}

OpenFile::~OpenFile() {
  if (number_ >= 0) ::close(number_);
}

std::size_t OpenFile::read(std::size_t from, std::size_t count, char* room) {
  constexpr std::size_t most_at_once = std::size_t{1} << 30;
  std::size_t got = 0;
  while (got < count && reason_ == 0) {
    const ssize_t more =
        ::pread(number_, room + got, std::min(count - got, most_at_once), static_cast<off_t>(from + got));
    if (more == 0) break;
    if (more > 0) got += static_cast<std::size_t>(more);
    if (more < 0 && errno != EINTR) reason_ = errno;
  }
  return got;
}

Diagnostic unreadable(const std::string& shown_name, int reason) {
  return error("file/unreadable", {shown_name, 0, 0}, "can't be read: " + std::generic_category().message(reason),
               "check that it is there and may be read");
}

}  // namespace driftwarden
