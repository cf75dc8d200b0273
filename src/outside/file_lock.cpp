// SPDX-License-Identifier: MIT
#include "outside/file_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

namespace driftwarden {
namespace {

bool is_flocked(int number, int how) {
  int result = 0;
  do {
    result = ::flock(number, how);
  } while (result != 0 && errno == EINTR);
  return result == 0;
}

bool is_locked_in_turn(int number, const std::function<void()>& waits) {
  if (is_flocked(number, LOCK_EX | LOCK_NB)) return true;
  if (errno != EWOULDBLOCK) return false;
  if (waits) waits();
  return is_flocked(number, LOCK_EX);
}

// Whether the path still leads to the open file: an editor may have put another in its place while we waited.
bool is_still_there(int number, const std::filesystem::path& path) {
  struct stat open {};
  struct stat there {};
  return ::fstat(number, &open) == 0 && ::stat(path.c_str(), &there) == 0 && open.st_ino == there.st_ino &&
         open.st_dev == there.st_dev;
}

}  // namespace

Descriptor::~Descriptor() {
  if (number_ >= 0) ::close(number_);
}

bool is_locked(int number) { return is_flocked(number, LOCK_EX); }

std::optional<Descriptor> locked_file(const std::filesystem::path& path, int flags,
                                      const std::function<void()>& waits) {
  for (;;) {
    Descriptor file(::open(path.c_str(), flags | O_CLOEXEC | O_NONBLOCK));
    if (file.number() < 0 || !is_locked_in_turn(file.number(), waits)) return std::nullopt;
    if (is_still_there(file.number(), path)) return file;
  }
}

}  // namespace driftwarden
